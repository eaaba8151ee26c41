package gylewarden.control;

import gylewarden.control.Sample.Measured;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/** How a probe whose movement is doubted comes to be believed again without a person's word. */
sealed interface BeliefReturning {
    BeliefReturning good(Measured measured);

    boolean isBack();

    /** One that was stuck, until it has moved for {@link BeliefRules#GOOD_IN_A_ROW} readings in a row. */
    record Moving(Temperature stuckAt, int movedInRow) implements BeliefReturning {
        @Override
        public Moving good(Measured measured) {
            return new Moving(stuckAt, measured.temperature().equals(stuckAt) ? 0 : movedInRow + 1);
        }

        @Override
        public boolean isBack() {
            return movedInRow >= BeliefRules.GOOD_IN_A_ROW;
        }
    }

    /** One that moved too much, until it is near where it was and rests there, as only beer does. */
    record Settling(Temperature before, Duration patience, Optional<Rest> rest) implements BeliefReturning {
        private static final Kelvins NEAR = new Kelvins(3);
        private static final Kelvins AT_REST = new Kelvins(1);
        private static final Duration LONG_ENOUGH = Duration.ofMinutes(30);

        /** Since when it has been near and at rest, what it said meanwhile, and when last. */
        record Rest(Uptime since, Temperature lowest, Temperature highest, Uptime last) {}

        static Settling away(Temperature before, Duration patience) {
            return new Settling(before, patience, Optional.empty());
        }

        @Override
        public Settling good(Measured measured) {
            Temperature here = measured.temperature();
            boolean near = !here.minus(before).magnitude().isMoreThan(NEAR);
            if (!near) return away(before, patience);
            Rest begun = new Rest(measured.at(), here, here, measured.at());
            Rest next = rest.filter(old -> measured.at().since(old.last()).compareTo(patience) <= 0)
                    .map(old -> new Rest(
                            old.since(),
                            old.lowest().isAbove(here) ? here : old.lowest(),
                            old.highest().isBelow(here) ? here : old.highest(),
                            measured.at()))
                    .filter(grown -> AT_REST.isMoreThan(grown.highest().minus(grown.lowest())))
                    .orElse(begun);
            return new Settling(before, patience, Optional.of(next));
        }

        @Override
        public boolean isBack() {
            return rest.filter(r -> r.last().since(r.since()).compareTo(LONG_ENOUGH) >= 0)
                    .isPresent();
        }
    }
}

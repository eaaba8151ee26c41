package gylewarden.simulation;

import gylewarden.batch.Mandate;
import gylewarden.chamber.StatusBoard;
import gylewarden.commission.Commissioning;
import gylewarden.commission.Sight;
import gylewarden.commission.Verdict;
import gylewarden.control.Contact;
import gylewarden.control.Orders;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.plant.InventedDisturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.Plants;
import gylewarden.plant.RoomParameters;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** An invented chamber with water in its vessel, near the temperature of its room, that is being commissioned. */
final class CommissionedChamber {
    /** So that neighbouring seeds share nothing: {@link Random} begins alike for small ones. */
    private static final long SPREAD = 7919L * 7919L;

    private static final Duration LONGEST = Duration.ofHours(20);

    private final VirtualChamber chamber;
    private final Temperature start;
    private Commissioning commissioning;

    /**
     * @param plant which of the invented chambers, 5 to 60 L
     * @param life seed of its room, its start and its noise
     */
    CommissionedChamber(long plant, long life, boolean airProbe) {
        var random = new Random((plant * 1000 + life) * SPREAD);
        double room = 15 + 10 * random.nextDouble();
        start = new Temperature(room + 1.5 * random.nextGaussian());
        PlantParameters any = Plants.any(plant * SPREAD);
        PlantParameters parameters = new PlantParameters(
                start,
                new PlantParameters.Fitted(true, true, airProbe),
                any.beer(),
                any.vessel(),
                any.air(),
                any.lining(),
                any.evaporator(),
                any.compressor(),
                any.heater(),
                any.beerProbe(),
                any.airProbe(),
                any.sampling());
        Rules rules = Rules.defaults().with(new Rules.Fitted(Optional.of(Rules.CoolingBy.COMPRESSOR), true, airProbe));
        var day = new RoomParameters(new Temperature(room), new Kelvins(2), 15, new Kelvins(0.5));
        chamber = new VirtualChamber(
                parameters,
                new InventedDisturbances(day, Optional.empty(), any.beer().volumeLitres(), life),
                rules,
                Mandate.nothing(),
                StatusBoard.nobodyLooks(),
                life);
        commissioning = Commissioning.begin(rules, chamber.clocks().monotonic().read());
    }

    Temperature start() {
        return start;
    }

    VirtualChamber chamber() {
        return chamber;
    }

    CommissionedChamber with(List<Fault> faults) {
        faults.forEach(chamber::inject);
        return this;
    }

    /** One second of it. */
    ChamberStatus second() {
        Optional<Side> wanted = commissioning.wanted();
        chamber.chamber().order(orders -> orders.trying(new Orders.Trial(wanted)));
        ChamberStatus status = chamber.second();
        commissioning = commissioning.after(Sight.of(
                status.at(),
                status.readings().beer(),
                status.readings().air(),
                status.guard(),
                status.decision().reason()));
        return status;
    }

    Optional<Side> wanted() {
        return commissioning.wanted();
    }

    Optional<Verdict> verdictSoFar() {
        return commissioning.verdict();
    }

    Verdict verdict() {
        while (commissioning.verdict().isEmpty()) {
            if (chamber.seconds() > LONGEST.toSeconds())
                throw new AssertionError("no verdict within " + LONGEST + ": " + commissioning.stage());
            second();
        }
        return commissioning.verdict().get();
    }

    boolean gives(Side side) {
        return chamber.relayGives(side) == Contact.ENERGISED;
    }
}

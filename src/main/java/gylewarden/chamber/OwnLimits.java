package gylewarden.chamber;

import gylewarden.batch.Mandate;
import gylewarden.control.Rules;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Whether limits of a person's own lie within those of the config, and in order. */
final class OwnLimits {
    /** Nearer together they would forbid everything. */
    private static final double APART_KELVIN = 2;

    private OwnLimits() {}

    static List<Mistake> mistakes(Mandate.Limits own, Rules.Limits outer) {
        List<Mistake> mistakes = new ArrayList<>();
        within("beerMinCelsius", own.beerMin(), outer.beerMin(), outer.beerMax(), mistakes);
        within("beerMaxCelsius", own.beerMax(), outer.beerMin(), outer.beerMax(), mistakes);
        within("airMinCelsius", own.airMin(), outer.airMin(), outer.airMax(), mistakes);
        within("airMaxCelsius", own.airMax(), outer.airMin(), outer.airMax(), mistakes);
        if (!mistakes.isEmpty()) return mistakes;
        Rules.Limits limits = Asked.within(outer, own);
        apart("beerMaxCelsius", limits.beerMin(), limits.beerMax(), mistakes);
        apart("airMaxCelsius", limits.airMin(), limits.airMax(), mistakes);
        return mistakes;
    }

    private static void within(
            String field, Optional<Temperature> own, Temperature least, Temperature most, List<Mistake> mistakes) {
        if (own.isEmpty()) return;
        double celsius = own.get().celsius();
        if (celsius < least.celsius() || celsius > most.celsius())
            mistakes.add(new Mistake(
                    field,
                    "is " + celsius + " °C; the config allows " + least.celsius() + " to " + most.celsius() + " °C"));
    }

    private static void apart(String field, Temperature least, Temperature most, List<Mistake> mistakes) {
        if (most.celsius() - least.celsius() < APART_KELVIN)
            mistakes.add(new Mistake(
                    field,
                    "is " + most.celsius() + " °C, too near to the least, " + least.celsius()
                            + " °C; keep them 2 K apart (3.6 °F)"));
    }

    /** In a neutral scale. */
    static String words(Rules.Limits limits) {
        return "Limits: beer from " + Scale.NEUTRAL.words(limits.beerMin()) + " to "
                + Scale.NEUTRAL.words(limits.beerMax()) + ", air from " + Scale.NEUTRAL.words(limits.airMin()) + " to "
                + Scale.NEUTRAL.words(limits.airMax()) + ".";
    }
}

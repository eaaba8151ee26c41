package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.units.Temperature;
import java.util.Optional;

/** Numbers as the API writes them. */
final class Figures {
    private static final double THOUSAND = 1000;

    private Figures() {}

    /** To a thousandth: what a probe can say, without the tail of binary fractions. */
    static double celsius(Temperature temperature) {
        return rounded(temperature.celsius());
    }

    static double rounded(double number) {
        double rounded = Math.round(number * THOUSAND) / THOUSAND;
        return rounded == 0 ? 0 : rounded;
    }

    static void put(ObjectNode document, String name, Optional<Temperature> temperature) {
        temperature.ifPresent(present -> document.put(name, celsius(present)));
    }
}

package gylewarden.web;

import gylewarden.document.Fields;
import gylewarden.units.Temperature;
import java.util.Optional;

/** Values that a body must or may have. */
final class Typed {
    private Typed() {}

    /** In °C; what is colder than can be is a mistake. */
    static Optional<Temperature> celsius(Fields fields, String name) {
        Optional<Double> celsius = fields.number(name);
        if (celsius.isPresent() && celsius.get() < -273.15) {
            fields.mistake(name, "is " + celsius.get() + " °C, colder than anything can be");
            return Optional.empty();
        }
        return celsius.map(Temperature::new);
    }

    /** The value; if there is none at all, that is a mistake. */
    static <T> Optional<T> needed(Fields fields, String name, Optional<T> value) {
        if (!fields.has(name)) fields.mistake(name, "is missing");
        return value;
    }
}

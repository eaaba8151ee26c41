package gylewarden.mqtt;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.control.Reading;
import gylewarden.control.Side;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.journal.Sentences;
import gylewarden.units.Temperature;
import java.util.Locale;
import java.util.Optional;

/** What a chamber tells home-automation software, one value each, and how it is written there. */
enum Property {
    BEER("Beer", Kind.MEASURED),
    SECOND_BEER("Second probe in the beer", Kind.MEASURED),
    AIR("Air", Kind.MEASURED),
    ROOM("Room", Kind.MEASURED),
    SETPOINT("Setpoint", Kind.SET),
    COOLING("Cooling", Kind.RELAY),
    HEATING("Heating", Kind.RELAY),
    SENTENCE("What it does, and why", Kind.WORDS);

    /** What kind of value. */
    private enum Kind {
        MEASURED("float"),
        SET("float"),
        RELAY("boolean"),
        WORDS("string");

        private final String datatype;

        Kind(String datatype) {
            this.datatype = datatype;
        }
    }

    private final String title;
    private final Kind kind;

    Property(String title, Kind kind) {
        this.title = title;
        this.kind = kind;
    }

    String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Whether the chamber has it at all. */
    boolean isFitted(ChamberStatus status) {
        return switch (this) {
            case SECOND_BEER, AIR, ROOM -> reading(status).isPresent();
            case COOLING -> status.fitted().has(Side.COOLING);
            case HEATING -> status.fitted().has(Side.HEATING);
            case BEER, SETPOINT, SENTENCE -> true;
        };
    }

    /** As the convention writes it; empty while it is not known. */
    Optional<String> text(ChamberStatus status) {
        return switch (this) {
            case BEER, SECOND_BEER, AIR, ROOM ->
                reading(status).flatMap(Reading::believed).map(Property::celsius);
            case SETPOINT -> status.mandate().setpoint().map(Property::celsius);
            case COOLING -> Optional.of(energised(status, Side.COOLING));
            case HEATING -> Optional.of(energised(status, Side.HEATING));
            case SENTENCE -> Optional.of(new Sentences(Scale.CELSIUS).of(status));
        };
    }

    /** What a change of is worth telling at once; else, as temperatures drift and sentences count minutes, it can wait. */
    Object substance(ChamberStatus status) {
        return switch (kind) {
            case MEASURED -> text(status).isPresent();
            case WORDS -> status.decision().reason().kind();
            case SET, RELAY -> text(status);
        };
    }

    ObjectNode description() {
        ObjectNode description = Json.object();
        description.put("name", title).put("datatype", kind.datatype);
        if (kind.datatype.equals("float")) description.put("unit", "°C");
        return description.put("settable", false).put("retained", true);
    }

    private Optional<Reading> reading(ChamberStatus status) {
        return switch (this) {
            case BEER -> Optional.of(status.readings().beer());
            case SECOND_BEER -> status.readings().secondBeer();
            case AIR -> status.readings().air();
            case ROOM -> status.readings().room();
            case SETPOINT, COOLING, HEATING, SENTENCE -> Optional.empty();
        };
    }

    private static String energised(ChamberStatus status, Side side) {
        return String.valueOf(status.guard().load(side).energised());
    }

    /** To a tenth of a degree, as people read it elsewhere. */
    private static String celsius(Temperature temperature) {
        String text = String.format(Locale.ROOT, "%.1f", temperature.celsius());
        return text.equals("-0.0") ? "0.0" : text;
    }
}

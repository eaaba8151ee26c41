package gylewarden.document;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Mandate;
import gylewarden.schedule.Mistake;
import gylewarden.units.Temperature;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** A chamber's mandate as JSON: what is kept beside the database and in it. Not for people to edit. */
public final class MandateDocument {
    private MandateDocument() {}

    /** Reading it gives the same mandate. */
    public static String write(Mandate mandate) {
        return tree(mandate).toString();
    }

    static ObjectNode tree(Mandate mandate) {
        ObjectNode document = Json.object();
        document.put("revision", mandate.revision());
        if (mandate.lost()) document.put("lost", true);
        put(document, "targetCelsius", mandate.target());
        document.put("targetAsked", mandate.targetAsked());
        mandate.pauseLeft().ifPresent(left -> document.put("pauseLeft", left.toString()));
        Mandate.Limits limits = mandate.limits();
        put(document, "beerMinCelsius", limits.beerMin());
        put(document, "beerMaxCelsius", limits.beerMax());
        put(document, "airMinCelsius", limits.airMin());
        put(document, "airMaxCelsius", limits.airMax());
        mandate.batch().ifPresent(batch -> document.set("batch", BatchDocument.tree(batch)));
        return document;
    }

    /** @throws Unreadable if the text is not what {@link #write} gives */
    public static Mandate read(String text) throws Unreadable {
        return kept(text, MandateDocument::read);
    }

    static Mandate read(Fields fields) {
        Mandate.Limits limits = new Mandate.Limits(
                celsius(fields, "beerMinCelsius"),
                celsius(fields, "beerMaxCelsius"),
                celsius(fields, "airMinCelsius"),
                celsius(fields, "airMaxCelsius"));
        long revision = fields.whole("revision").orElseThrow(() -> new IllegalArgumentException("no revision"));
        return new Mandate(
                revision,
                celsius(fields, "targetCelsius"),
                // Earlier ones do not tell; then whoever asked for anything is taken to have asked for the target too.
                fields.flag("targetAsked").orElse(revision > 0),
                fields.object("batch").map(BatchDocument::read),
                fields.duration("pauseLeft"),
                limits,
                fields.flag("lost").orElse(false));
    }

    /** Reads what the program itself has written. */
    interface Reading<T> {
        /** @throws IllegalArgumentException if a value can't be */
        T of(Fields fields);
    }

    /** Any mistake makes the whole of it unreadable: half of what was asked is worse than none. */
    static <T> T kept(String text, Reading<T> reading) throws Unreadable {
        List<Mistake> mistakes = new ArrayList<>();
        try {
            JsonNode tree = Json.parse(text);
            T read = reading.of(new Fields(tree, "", mistakes));
            if (mistakes.isEmpty()) return read;
            throw new Unreadable(mistakes.stream().map(Mistake::toString).collect(Collectors.joining("; ")));
        } catch (JsonProcessingException broken) {
            throw new Unreadable("it is no JSON " + Json.fault(broken));
        } catch (IllegalArgumentException impossible) {
            throw new Unreadable(String.valueOf(impossible.getMessage()));
        }
    }

    static void put(ObjectNode document, String name, Optional<Temperature> temperature) {
        temperature.ifPresent(present -> document.put(name, present.celsius()));
    }

    static Optional<Temperature> celsius(Fields fields, String name) {
        return fields.number(name).map(Temperature::new);
    }
}

package gylewarden.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import gylewarden.web.Problem.Kind;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;

/** One request, read strictly. */
record Call(Context context, Browsers browsers) {
    String parameter(String name) {
        return context.pathParam(name);
    }

    /** @throws Refused where there can be no such thing, for the id is none of ours */
    UUID id() throws Refused {
        String text = parameter("id");
        return uuid(text)
                .orElseThrow(() -> new Refused(
                        Kind.NOT_FOUND,
                        "There is no batch \"" + Fields.shortened(text)
                                + "\". GET /api/batches lists those that there are."));
    }

    /** Empty where it is none, or written in another way than ours. */
    static Optional<UUID> uuid(String text) {
        try {
            UUID id = UUID.fromString(text);
            return id.toString().equalsIgnoreCase(text) ? Optional.of(id) : Optional.empty();
        } catch (IllegalArgumentException none) {
            return Optional.empty();
        }
    }

    Optional<String> header(String name) {
        return Optional.ofNullable(context.header(name));
    }

    Optional<String> query(String name) {
        return Optional.ofNullable(context.queryParam(name));
    }

    /** In which unit sentences are wanted: {@code ?units=F} or {@code C}. */
    Scale units() throws Refused {
        Optional<String> units = query("units");
        if (units.isEmpty() || units.get().equals("C")) return Scale.CELSIUS;
        if (units.get().equals("F")) return Scale.FAHRENHEIT;
        throw unfit("units", units.get(), "write C or F");
    }

    boolean flag(String name) throws Refused {
        Optional<String> text = query(name);
        if (text.isEmpty() || text.get().equals("false")) return false;
        if (text.get().equals("true")) return true;
        throw unfit(name, text.get(), "write true or false");
    }

    Optional<Instant> instant(String name) throws Refused {
        Optional<String> text = query(name);
        if (text.isEmpty()) return Optional.empty();
        try {
            return Optional.of(OffsetDateTime.parse(text.get()).toInstant());
        } catch (DateTimeParseException unreadable) {
            throw unfit(name, text.get(), "write an ISO 8601 time with its zone such as 2026-11-25T14:00:00Z");
        }
    }

    Optional<Long> whole(String name, long least, long most) throws Refused {
        Optional<String> text = query(name);
        if (text.isEmpty()) return Optional.empty();
        String allowed = "write a whole number from " + least + " to " + most;
        try {
            long number = Long.parseLong(text.get());
            if (number >= least && number <= most) return Optional.of(number);
        } catch (NumberFormatException none) {
            // told below, as for one out of range
        }
        throw unfit(name, text.get(), allowed);
    }

    private static Refused unfit(String name, String text, String allowed) {
        return new Refused(Problem.mistake(name, "is \"" + Fields.shortened(text) + "\"; " + allowed));
    }

    /**
     * The body, an object with none but these fields.
     *
     * @param read notes what is wrong in the fields that it is given; what it gives is empty only then
     * @throws Refused with all mistakes at once, if there is one
     */
    <T> T body(List<String> known, Function<Fields, Optional<T>> read) throws Refused {
        JsonNode document = body();
        if (!document.isObject()) throw new Refused(Problem.mistake("", "is no JSON object; write its fields in { }"));
        List<Mistake> mistakes = new ArrayList<>();
        var fields = new Fields(document, "", mistakes);
        fields.allowOnly(known);
        Optional<T> value = read.apply(fields);
        if (!mistakes.isEmpty()) throw new Refused(Problem.mistakes(mistakes));
        return value.orElseThrow(() -> new IllegalStateException("nothing read, and no mistake told"));
    }

    JsonNode body() throws Refused {
        byte[] bytes = context.attribute(Door.BODY) instanceof byte[] collected ? collected : new byte[0];
        try {
            JsonNode document = Json.parse(new String(bytes, StandardCharsets.UTF_8));
            if (!document.isMissingNode()) return document;
        } catch (JsonProcessingException broken) {
            throw new Refused(Kind.BAD_REQUEST, "The body is no JSON " + Json.fault(broken) + ".");
        }
        throw new Refused(Kind.BAD_REQUEST, "The body is empty. Send a JSON object, {} where there is nothing to say.");
    }

    /** Who asks, for the record. */
    String actor() {
        return browsers.actor(context);
    }
}

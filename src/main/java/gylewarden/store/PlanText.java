package gylewarden.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.document.MandateDocument;
import gylewarden.document.Unreadable;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.ElapsedClock.Unsettled;
import gylewarden.schedule.Mistake;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * A {@link Plan} as two lines of text: JSON, and the SHA-256 of that line, by which a torn or garbled file is told from one that
 * somebody wrote. A card that dies gives back blocks of an older file, so that well-formed JSON proves nothing.
 */
final class PlanText {
    private static final String SUM = "sha256 ";

    private PlanText() {}

    static String write(Plan plan) {
        ObjectNode document = Json.object();
        document.put("mandate", MandateDocument.write(plan.mandate()));
        put(document, "clock", plan.clock().last());
        plan.clock().unsettled().ifPresent(open -> {
            put(document, "believed", open.believed());
            document.put("counted", open.counted().toString());
        });
        String line = document.toString();
        return line + "\n" + SUM + sum(line) + "\n";
    }

    private static void put(ObjectNode document, String name, ClockReading clock) {
        document.putObject(name)
                .put("boot", clock.boot())
                .put("sinceBoot", clock.sinceBoot().toString())
                .put("wall", clock.wall().toString())
                .put("trusted", clock.trusted());
    }

    /** @throws Unreadable if the text is not what {@link #write} gives, to the last letter */
    static Plan read(String text) throws Unreadable {
        int end = text.indexOf('\n');
        if (end < 0) throw new Unreadable("its second line is missing");
        String line = text.substring(0, end);
        if (!text.substring(end + 1).equals(SUM + sum(line) + "\n"))
            throw new Unreadable("its two lines don't belong together");
        List<Mistake> mistakes = new ArrayList<>();
        try {
            var fields = new Fields(Json.parse(line), "", mistakes);
            Optional<String> mandate = fields.text("mandate");
            Optional<ClockReading> last = fields.object("clock").flatMap(PlanText::clock);
            Optional<Unsettled> open = fields.object("believed")
                    .flatMap(PlanText::clock)
                    .flatMap(believed -> fields.duration("counted").map(counted -> new Unsettled(believed, counted)));
            if (!mistakes.isEmpty()) throw new Unreadable(mistakes.toString());
            if (mandate.isEmpty() || last.isEmpty()) throw new Unreadable("it holds no mandate or no clock");
            return new Plan(MandateDocument.read(mandate.get()), new ElapsedClock(last.get(), open));
        } catch (JsonProcessingException e) {
            throw new Unreadable("it is no JSON: " + e.getOriginalMessage());
        } catch (IllegalArgumentException impossible) {
            throw new Unreadable(String.valueOf(impossible.getMessage()));
        }
    }

    private static Optional<ClockReading> clock(Fields fields) {
        var boot = fields.text("boot");
        var sinceBoot = fields.duration("sinceBoot");
        var wall = fields.instant("wall");
        var trusted = fields.flag("trusted");
        if (boot.isEmpty() || sinceBoot.isEmpty() || wall.isEmpty() || trusted.isEmpty()) return Optional.empty();
        return Optional.of(new ClockReading(boot.get(), sinceBoot.get(), wall.get(), trusted.get()));
    }

    private static String sum(String line) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(line.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}

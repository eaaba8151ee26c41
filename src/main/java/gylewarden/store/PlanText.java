package gylewarden.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Standing;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.document.MandateDocument;
import gylewarden.document.StandingDocument;
import gylewarden.document.Unreadable;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.Mistake;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * A {@link Standing} as two lines of text: JSON, and the SHA-256 of that line, by which a torn or garbled file is told from one that
 * somebody wrote. A card that dies gives back blocks of an older file, so that well-formed JSON proves nothing.
 */
final class PlanText {
    private static final String SUM = "sha256 ";

    private PlanText() {}

    static String write(Standing plan) {
        ObjectNode document = Json.object();
        document.put("mandate", MandateDocument.write(plan.mandate()));
        StandingDocument.put(document, plan.clock());
        String line = document.toString();
        return line + "\n" + SUM + sum(line) + "\n";
    }

    /** @throws Unreadable if the text is not what {@link #write} gives, to the last letter */
    static Standing read(String text) throws Unreadable {
        int end = text.indexOf('\n');
        if (end < 0) throw new Unreadable("its second line is missing");
        String line = text.substring(0, end);
        if (!text.substring(end + 1).equals(SUM + sum(line) + "\n"))
            throw new Unreadable("its two lines don't belong together");
        List<Mistake> mistakes = new ArrayList<>();
        try {
            var fields = new Fields(Json.parse(line), "", mistakes);
            Optional<String> mandate = fields.text("mandate");
            Optional<ElapsedClock> clock = StandingDocument.clock(fields);
            if (!mistakes.isEmpty()) throw new Unreadable(mistakes.toString());
            if (mandate.isEmpty() || clock.isEmpty()) throw new Unreadable("it holds no mandate or no clock");
            return new Standing(MandateDocument.read(mandate.get()), clock.get());
        } catch (JsonProcessingException e) {
            throw new Unreadable("it is no JSON " + Json.fault(e));
        } catch (IllegalArgumentException impossible) {
            throw new Unreadable(String.valueOf(impossible.getMessage()));
        }
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

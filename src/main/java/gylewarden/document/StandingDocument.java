package gylewarden.document;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Mandate;
import gylewarden.batch.Standing;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.schedule.ElapsedClock.Unsettled;
import gylewarden.schedule.Meanwhile;
import gylewarden.schedule.Meanwhile.Standstill;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** A chamber's mandate with the clocks of its moment as JSON: as {@link MandateDocument}, and what the clocks said beside it. */
public final class StandingDocument {
    /** Of a moment of which only a date is known, and that not for certain: says nothing about the time since. */
    private static final String NO_BOOT = "unknown";

    private StandingDocument() {}

    /** Reading it gives the same. */
    public static String write(Standing standing) {
        ObjectNode document = MandateDocument.tree(standing.mandate());
        put(document, standing.clock());
        return document.toString();
    }

    /**
     * @param saved when it was written, for a document of an earlier version that does not say what the clocks said
     * @throws Unreadable if the text is not what {@link #write} gives
     */
    public static Standing read(String text, Instant saved) throws Unreadable {
        return MandateDocument.kept(text, fields -> {
            Mandate mandate = MandateDocument.read(fields);
            ElapsedClock unknown = ElapsedClock.first(new ClockReading(NO_BOOT, Duration.ZERO, saved, false));
            return new Standing(mandate, clock(fields).orElse(unknown));
        });
    }

    /** Adds what the clocks said to a document. */
    public static void put(ObjectNode document, ElapsedClock clock) {
        put(document, "clock", clock.last());
        clock.unsettled().ifPresent(open -> {
            put(document, "believed", open.believed());
            document.put("counted", open.counted().toString());
            document.put("absorbed", open.meanwhile().absorbed().toString());
            for (Standstill each : open.meanwhile().later()) document.put(name(each), true);
        });
    }

    private static void put(ObjectNode document, String name, ClockReading clock) {
        document.putObject(name)
                .put("boot", clock.boot())
                .put("sinceBoot", clock.sinceBoot().toString())
                .put("wall", clock.wall().toString())
                .put("trusted", clock.trusted());
    }

    /** What {@link #put} has added; empty if nothing. */
    public static Optional<ElapsedClock> clock(Fields fields) {
        Optional<ClockReading> last = fields.object("clock").flatMap(StandingDocument::reading);
        Optional<Unsettled> open = fields.object("believed")
                .flatMap(StandingDocument::reading)
                .flatMap(believed ->
                        fields.duration("counted").map(counted -> new Unsettled(believed, counted, meanwhile(fields))));
        return last.map(reading -> new ElapsedClock(reading, open));
    }

    private static Meanwhile meanwhile(Fields fields) {
        Meanwhile read =
                Meanwhile.nothing().absorbing(fields.duration("absorbed").orElse(Duration.ZERO));
        for (Standstill each : Standstill.values())
            read = read.with(each, fields.flag(name(each)).orElse(false));
        return read;
    }

    private static String name(Standstill which) {
        return switch (which) {
            case PAUSE -> "pauseIsLater";
            case HOLD -> "holdIsLater";
            case OVERRIDE -> "overrideIsLater";
        };
    }

    private static Optional<ClockReading> reading(Fields fields) {
        var boot = fields.text("boot");
        var sinceBoot = fields.duration("sinceBoot");
        var wall = fields.instant("wall");
        var trusted = fields.flag("trusted");
        if (boot.isEmpty() || sinceBoot.isEmpty() || wall.isEmpty() || trusted.isEmpty()) return Optional.empty();
        return Optional.of(new ClockReading(boot.get(), sinceBoot.get(), wall.get(), trusted.get()));
    }
}

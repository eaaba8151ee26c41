package gylewarden.journal;

import gylewarden.commission.Commissioning;
import gylewarden.commission.Ending;
import gylewarden.commission.Guided;
import gylewarden.commission.Phase;
import gylewarden.commission.Verdict;
import gylewarden.control.Rules;
import gylewarden.control.Rules.Timing;
import gylewarden.control.Side;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Puts a commissioning into words: what it will do, what it does now, and how it ended. */
public record GuidedWords(Scale scale) {
    /** What will happen, in its order, for a chamber with these rules. */
    public static List<String> plan(Rules rules) {
        List<String> steps = new ArrayList<>();
        for (Side side : List.of(Side.HEATING, Side.COOLING))
            if (rules.fitted().has(side)) steps.add(click(side, rules));
        steps.add("Everything rests, " + sides(rules) + ", everything rests again, while the probes are watched: "
                + takes(rules.fitted().airProbe()));
        return List.copyOf(steps);
    }

    private static String sides(Rules rules) {
        return List.of(Side.HEATING, Side.COOLING).stream()
                .filter(rules.fitted()::has)
                .map(side -> name(side) + " is tried")
                .collect(Collectors.joining(", everything rests, "));
    }

    /** How long watching the probes takes. */
    public static String takes(boolean airProbe) {
        return airProbe
                ? "about an hour and a half, at most four hours."
                : "three to five hours and a half without an air probe.";
    }

    private static String click(Side side, Rules rules) {
        Timing timing = rules.timing();
        Duration run = side == Side.COOLING ? timing.minimumOn() : Timing.HEATER_MINIMUM;
        String clicks = "The relay for " + name(side) + " clicks on, its load runs for " + Spans.words(run)
                + ", and it clicks off. You say what came on.";
        boolean both = rules.fitted().has(side.other());
        if (side == Side.HEATING) return clicks;
        List<String> waits = new ArrayList<>();
        if (rules.fitted().hasCompressor())
            waits.add("its compressor must have been off for " + Spans.words(timing.minimumOff()));
        if (both && !timing.changeOver().isZero()) waits.add("heating for " + Spans.words(timing.changeOver()));
        return waits.isEmpty() ? clicks : clicks + " It waits first: " + String.join(", ", waits) + ".";
    }

    /** What goes on now. */
    public String now(Guided guided, ChamberStatus status) {
        Phase phase = guided.phase();
        if (phase instanceof Phase.Clicking clicking)
            return "The relay for " + name(clicking.side()) + " clicks as soon as it may. Stay beside it and listen.";
        if (phase instanceof Phase.Asking asking) return asked(asking);
        if (phase instanceof Phase.Trying trying) return now(trying.commissioning(), status);
        return over(((Phase.Over) phase).ending());
    }

    private static String asked(Phase.Asking asking) {
        String relay = "The relay for " + name(asking.side());
        if (asking.right().isPresent())
            return "You have said what came on. It goes on as soon as that relay is released.";
        return asking.released().isEmpty()
                ? relay + " has clicked on: its load runs now, and no other should. It clicks off by itself."
                : relay + " has clicked on and off again. Say what came on, or it ends after 15 min.";
    }

    /** What goes on while nobody need be there. */
    public String now(Commissioning going, ChamberStatus status) {
        String since = ", for "
                + Spans.words(wholeMinutes(status.at().since(going.stage().since()))) + " now.";
        return switch (going.stage().doing()) {
            case RESTING -> "Everything rests" + since;
            case WAITING -> new Sentences(scale).of(status);
            case TRYING ->
                Sentences.capital(going.wanted().map(GuidedWords::name).orElse("")) + " is tried" + since;
            case DONE -> "Done.";
        };
    }

    /** How it ended, with what was found. */
    public String over(Ending ending) {
        if (ending instanceof Ending.Judged judged) return verdict(judged.verdict());
        return "Commissioning was ended before its verdict: " + why(((Ending.Stopped) ending).why())
                + " Nothing of it is kept.";
    }

    private String verdict(Verdict verdict) {
        if (verdict.passed()) return "The chamber has passed its commissioning.";
        var words = new FindingWords(scale);
        return "The chamber has not passed its commissioning. "
                + verdict.findings().stream().map(words::of).collect(Collectors.joining(" "));
    }

    private static String why(Ending.Why why) {
        return switch (why) {
            case PERSON -> "a person ended it.";
            case NOBODY_ANSWERED -> "nobody said what had clicked.";
            case ASKED_OTHERWISE -> "somebody asked something else of the chamber.";
            case PAUSED -> "the chamber was paused.";
            case SWITCHED_OFF -> "a person switched every relay off.";
            case BACKING_OFF -> "the daemon restarts too often to switch anything.";
            case PLAN_LOST -> "what was asked of the chamber can't be read any more.";
            case STOOD_STILL -> "the board slept, or the loop stood still, and nobody knows what ran meanwhile.";
            case RESTARTED -> "the daemon was restarted.";
        };
    }

    private static Duration wholeMinutes(Duration span) {
        return Duration.ofMinutes(span.toMinutes());
    }

    private static String name(Side side) {
        return side == Side.COOLING ? "cooling" : "heating";
    }
}

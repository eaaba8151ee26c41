package gylewarden.app;

import gylewarden.app.config.ChamberConfig;
import gylewarden.commission.Finding;
import gylewarden.commission.Verdict;
import gylewarden.control.Side;
import gylewarden.journal.FindingWords;
import gylewarden.journal.GuidedWords;
import gylewarden.journal.Scale;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What commissioning says to the person beside the chamber, and asks. Only a yes goes on. */
record CommissionTalk(PrintWriter out, BufferedReader in) {
    private static final FindingWords WORDS = new FindingWords(Scale.CELSIUS);

    /** Says what will happen, and asks whether to begin. */
    boolean begin(ChamberConfig chamber) throws IOException {
        say("Commissioning of chamber " + chamber.id() + ": " + fitted(chamber) + ".");
        say("First each relay clicks. Then everything rests, heating is tried, everything rests, cooling is tried, and"
                + " everything rests again, while the probes are watched: "
                + GuidedWords.takes(chamber.probes().air().isPresent()));
        say(
                "Caution: mains. Stay near, for a wrong wire may leave a load running while everything is off. Never work on wires"
                        + " alone or with a plug in. " + RelaysOffCommand.CAUTION);
        say(
                "No beer in it yet: water in the vessel, at the room's temperature. The door closed. The appliance's own knob at"
                        + " coldest, eco off; it must come back by itself after a loss of power.");
        return yes("Write yes to begin; anything else ends here, with nothing energised:");
    }

    private static String fitted(ChamberConfig chamber) {
        List<String> parts = new ArrayList<>();
        chamber.coolingRelay().ifPresent(id -> parts.add("cooling by relay " + id));
        chamber.heatingRelay().ifPresent(id -> parts.add("heating by relay " + id));
        parts.add("beer probe " + chamber.probes().beer());
        parts.add(chamber.probes().air().map(id -> "air probe " + id).orElse("no air probe"));
        return String.join(", ", parts);
    }

    /** After a click. */
    boolean rightLoad(String relay, Side side) throws IOException {
        return yes("Did the relay for " + CommissionLoop.name(side) + ", " + relay
                + ", click, and is the load on it the one for " + CommissionLoop.name(side)
                + ", and no other? Plugs that you pulled go back in now. Write yes to go on:");
    }

    /** The verdict, for a person. */
    void tell(String chamber, Verdict verdict) {
        verdict.heated().ifPresent(effect -> say(WORDS.of(Side.HEATING, effect)));
        verdict.cooled().ifPresent(effect -> say(WORDS.of(Side.COOLING, effect)));
        for (Finding finding : verdict.findings()) {
            say("Found: " + WORDS.of(finding));
            say("Look first: " + WORDS.lookFirst(finding));
        }
        verdict.unseen().stream().sorted().forEach(unseen -> say("Not told: " + FindingWords.of(unseen)));
        say(verdict.passed() ? "Chamber " + chamber + " has passed." : "Chamber " + chamber + " has NOT passed.");
    }

    private boolean yes(String question) throws IOException {
        say(question);
        return Optional.ofNullable(in.readLine())
                .orElse("")
                .strip()
                .toLowerCase(Locale.ROOT)
                .equals("yes");
    }

    private void say(String line) {
        out.println(line);
        out.flush();
    }
}

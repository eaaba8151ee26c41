package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.chamber.TrialDesk;
import gylewarden.chamber.TrialDesk.Going;
import gylewarden.commission.Effect;
import gylewarden.commission.Ending;
import gylewarden.commission.Finding;
import gylewarden.commission.Phase;
import gylewarden.commission.Verdict;
import gylewarden.control.Side;
import gylewarden.document.Json;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.FindingWords;
import gylewarden.journal.GuidedWords;
import gylewarden.journal.Scale;
import java.util.Optional;

/** A chamber's commissioning by the page, as far as it has got. */
final class CommissioningDocument {
    private CommissioningDocument() {}

    static ObjectNode notAllowed(String why) {
        return Json.object().put("allowed", false).put("state", "none").put("sentence", why);
    }

    static ObjectNode of(TrialDesk desk, ChamberStatus status, Scale scale) {
        String chamber = status.chamber();
        ObjectNode document = Json.object().put("allowed", true);
        var plan = document.putArray("plan");
        GuidedWords.plan(desk.rules(chamber)).forEach(plan::add);
        desk.hindrance(chamber).ifPresent(why -> document.put("hindrance", why));
        Optional<Going> going = desk.look(chamber);
        if (going.isEmpty())
            return document.put("state", "none")
                    .put("sentence", "None was begun by the page since the daemon started.");
        put(document, going.get(), status, scale);
        return document;
    }

    private static void put(ObjectNode document, Going going, ChamberStatus status, Scale scale) {
        Phase phase = going.guided().phase();
        document.put("state", state(phase));
        document.put("sentence", new GuidedWords(scale).now(going.guided(), status));
        going.actor()
                .ifPresent(actor -> document.put(
                                "begunAt",
                                Times.text(status.dated(going.guided().begun())))
                        .put("by", actor));
        if (phase instanceof Phase.Clicking clicking) document.put("side", Words.camel(clicking.side()));
        if (phase instanceof Phase.Asking asking)
            document.put("side", Words.camel(asking.side()))
                    .put("answered", asking.right().isPresent());
        if (phase instanceof Phase.Trying trying)
            document.put(
                    "overAt", Times.text(status.dated(trying.commissioning().doneBy(status.at()))));
        if (phase instanceof Phase.Over over && over.ending() instanceof Ending.Judged judged)
            document.set("result", result(judged.verdict(), new FindingWords(scale)));
    }

    private static String state(Phase phase) {
        if (phase instanceof Phase.Clicking) return "clicking";
        if (phase instanceof Phase.Asking) return "asking";
        return phase instanceof Phase.Trying ? "trying" : "over";
    }

    private static ObjectNode result(Verdict verdict, FindingWords words) {
        ObjectNode result = Json.object().put("passed", verdict.passed());
        var effects = result.putArray("effects");
        for (Side side : Side.values()) {
            Optional<Effect> effect = side == Side.COOLING ? verdict.cooled() : verdict.heated();
            effect.ifPresent(moved -> effects.add(words.of(side, moved)));
        }
        var findings = result.putArray("findings");
        for (Finding finding : verdict.findings())
            findings.addObject().put("sentence", words.of(finding)).put("lookFirst", words.lookFirst(finding));
        var notTold = result.putArray("notTold");
        verdict.unseen().stream().sorted().map(FindingWords::of).forEach(notTold::add);
        return result;
    }
}

package gylewarden.web;

import gylewarden.chamber.TrialDesk;
import gylewarden.control.Side;
import gylewarden.document.Fields;
import gylewarden.journal.Scale;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Commissioning a chamber while the daemon runs, with a person beside it; only where the board's config allows it. */
final class CommissioningRoutes {
    static final String NOT_ALLOWED =
            "This board does not allow commissioning by the page. Write commissioning = true under [web] in its config and restart"
                    + " the daemon; or stop the daemon and use the command commission.";

    private static final String ONE = "/api/chambers/{id}/commissioning";

    private final Wired wired;

    CommissioningRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get(ONE, call -> document(ChamberRoutes.room(wired.house(), call.parameter("id")), call.units())),
                Route.json(Method.POST, ONE, this::begin),
                Route.json(Method.POST, ONE + "/click", this::clicked),
                Route.json(Method.DELETE, ONE, this::end));
    }

    private Reply document(House.Room room, Scale scale) throws Refused {
        if (wired.trials().isEmpty()) return Reply.json(CommissioningDocument.notAllowed(NOT_ALLOWED));
        var status = wired.house()
                .status(room.id())
                .orElseThrow(() -> new Refused(
                        Kind.SERVICE_UNAVAILABLE,
                        "The daemon has only just started and " + room.id()
                                + " has not ticked yet. Ask again in a second."));
        return Reply.json(CommissioningDocument.of(wired.trials().get(), status, scale));
    }

    private Reply begin(Call call) throws Refused {
        House.Room room = ChamberRoutes.room(wired.house(), call.parameter("id"));
        Scale scale = call.units();
        boolean beside =
                call.body(List.of("besideIt"), fields -> Typed.needed(fields, "besideIt", fields.flag("besideIt")));
        if (!beside)
            throw new Refused(Problem.mistake(
                    "besideIt", "is false; somebody has to stand beside the chamber and hear each relay click"));
        Answers.done(desk().begin(room.id(), call.actor()));
        return document(room, scale);
    }

    private record Said(Side side, boolean right) {}

    private Reply clicked(Call call) throws Refused {
        House.Room room = ChamberRoutes.room(wired.house(), call.parameter("id"));
        Scale scale = call.units();
        Said said = call.body(List.of("side", "right"), fields -> {
            Optional<Side> side = Typed.needed(fields, "side", side(fields));
            return Typed.needed(fields, "right", fields.flag("right"))
                    .flatMap(right -> side.map(which -> new Said(which, right)));
        });
        Answers.done(desk().clicked(room.id(), said.side(), said.right(), call.actor()));
        return document(room, scale);
    }

    private static Optional<Side> side(Fields fields) {
        Optional<String> text = fields.text("side");
        Optional<Side> side = text.flatMap(word -> Arrays.stream(Side.values())
                .filter(each -> Words.camel(each).equals(word))
                .findFirst());
        if (text.isPresent() && side.isEmpty()) fields.mistake("side", "write \"cooling\" or \"heating\"");
        return side;
    }

    private Reply end(Call call) throws Refused {
        House.Room room = ChamberRoutes.room(wired.house(), call.parameter("id"));
        Scale scale = call.units();
        Answers.done(desk().end(room.id(), call.actor()));
        return document(room, scale);
    }

    private TrialDesk desk() throws Refused {
        return wired.trials().orElseThrow(() -> new Refused(Kind.FORBIDDEN, NOT_ALLOWED));
    }
}

package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.chamber.Answer;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.post.Wishes;
import gylewarden.post.WishesText;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** The ways to reach people, what they want of each, and whether they are away. */
final class ChannelRoutes {
    private static final String ALL = "/api/channels";
    private static final String ONE = ALL + "/{name}";
    private static final String AWAY = "/api/away";

    private final Bell bell;

    ChannelRoutes(Wired wired) {
        this.bell = wired.bell();
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, call -> all()),
                Route.json(Method.PUT, ONE, this::wish),
                Route.json(Method.POST, ONE + "/test", this::test),
                Route.get(AWAY, this::away),
                Route.json(Method.PUT, AWAY, this::go),
                Route.json(Method.DELETE, AWAY, call -> away(call, Optional.empty())));
    }

    private Reply all() {
        ArrayNode list = Json.object().putArray("channels");
        for (Bell.Line line : bell.channels()) list.add(document(line));
        return Reply.json(list);
    }

    private static ObjectNode document(Bell.Line line) {
        ObjectNode document = Json.object();
        document.put("name", line.name());
        document.put("kind", line.kind());
        line.wishes()
                .ifPresent(
                        wishes -> document.set("wishes", WishesText.of(wishes).retain(fields(line))));
        line.lit().ifPresent(lit -> document.put("lit", lit));
        document.put("waiting", line.waiting());
        line.lastArrived().ifPresent(at -> document.put("lastArrivedAt", Times.text(at)));
        line.tested().ifPresent(at -> document.put("testedAt", Times.text(at)));
        line.failing()
                .ifPresent(failing -> document.putObject("failing")
                        .put("since", Times.text(failing.since()))
                        .put("tries", failing.tries())
                        .put("why", failing.why()));
        return document;
    }

    private static List<String> fields(Bell.Line line) {
        return line.lit().isPresent() ? WishesText.FIELDS_OF_A_LAMP : WishesText.FIELDS;
    }

    private Bell.Line found(String name) throws Refused {
        return bell.channels().stream()
                .filter(line -> line.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new Refused(
                        Kind.NOT_FOUND,
                        "There is no channel \"" + Fields.shortened(name) + "\". GET " + ALL
                                + " lists those of the config, each a table [message.NAME]."));
    }

    private Reply wish(Call call) throws Refused {
        Bell.Line line = found(call.parameter("name"));
        Wishes before = line.wishes()
                .orElseThrow(() -> new Refused(
                        Kind.CONFLICT,
                        "A heartbeat has nothing to choose: it asks at one pace while all is well. The pace is in the"
                                + " config, every = \"5m\"."));
        Wishes wanted = call.body(fields(line), fields -> WishesText.changed(before, fields, bell.zone()));
        return saved(before.channel(), bell.wish(wanted, call.actor()));
    }

    private Reply test(Call call) throws Refused {
        String name = found(call.parameter("name")).name();
        call.body(List.of(), fields -> Optional.of(fields.size()));
        boolean saved = Answers.done(bell.test(name, call.actor())).unsaved().isEmpty();
        return Reply.json(202, document(found(name)).put("saved", saved));
    }

    private Reply saved(String name, Answer answer) throws Refused {
        boolean saved = Answers.done(answer).unsaved().isEmpty();
        return Reply.json(document(found(name)).put("saved", saved));
    }

    private Reply away(Call call) throws Refused {
        Optional<Instant> until = call.instant("until");
        ObjectNode document = away();
        if (until.isEmpty()) return Reply.json(document);
        var scale = call.units();
        ArrayNode before = document.putArray("before");
        bell.beforeGoing(until.get()).forEach(sentence -> before.add(scale.rephrase(sentence)));
        return Reply.json(document);
    }

    private ObjectNode away() {
        ObjectNode document = Json.object();
        bell.awayUntil().ifPresent(until -> document.put("until", Times.text(until)));
        return document;
    }

    private Reply go(Call call) throws Refused {
        Instant until = call.body(List.of("until"), fields -> Typed.needed(fields, "until", fields.instant("until")));
        return away(call, Optional.of(until));
    }

    private Reply away(Call call, Optional<Instant> until) throws Refused {
        boolean saved = Answers.done(bell.away(until, call.actor())).unsaved().isEmpty();
        return Reply.json(away().put("saved", saved));
    }
}

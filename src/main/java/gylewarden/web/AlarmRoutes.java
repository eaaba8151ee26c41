package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.alarm.Alarm;
import gylewarden.chamber.Answer;
import gylewarden.document.Json;
import gylewarden.journal.Scale;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** What needs a person, what did, and what a person does about it. */
final class AlarmRoutes {
    private static final String ALL = "/api/alarms";
    private static final String ONE = ALL + "/{id}";
    private static final int MOST = 500;
    private static final long USUAL = 100;

    private final Bell bell;

    AlarmRoutes(Wired wired) {
        this.bell = wired.bell();
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, this::list),
                Route.get(ONE, this::one),
                Route.json(Method.POST, ONE + "/acknowledge", call -> said(call, bell::acknowledge)),
                Route.json(Method.POST, ONE + "/shelve", this::shelve),
                Route.json(Method.DELETE, ONE + "/shelve", call -> asked(call, bell::loud)),
                Route.json(Method.POST, ONE + "/mended", call -> said(call, bell::mended)));
    }

    private Reply list(Call call) throws Refused {
        Scale scale = call.units();
        if (call.flag("all")) return documents(history(call), scale);
        for (String name : List.of("before", "limit"))
            if (call.query(name).isPresent())
                throw new Refused(Problem.mistake(name, "goes with all=true alone; what is open comes whole"));
        return documents(bell.open(), scale);
    }

    private List<Alarm> history(Call call) throws Refused {
        int most = Math.toIntExact(call.whole("limit", 1, MOST).orElse(USUAL));
        Optional<String> before = call.query("before");
        if (before.isEmpty()) return Recorded.of(() -> bell.all(Optional.empty(), most));
        Optional<Alarm> last = Optional.empty();
        Optional<UUID> id = Call.uuid(before.get());
        if (id.isPresent()) last = Recorded.of(() -> bell.find(id.get()));
        if (last.isEmpty())
            throw new Refused(Problem.mistake("before", "is no alarm; write the id of the last one that you have"));
        Optional<Alarm> found = last;
        return Recorded.of(() -> bell.all(found, most));
    }

    private static Reply documents(List<Alarm> alarms, Scale scale) {
        ArrayNode list = Json.object().putArray("alarms");
        for (Alarm alarm : alarms) list.add(AlarmDocument.of(alarm, scale));
        return Reply.json(list);
    }

    private Reply one(Call call) throws Refused {
        Scale scale = call.units();
        UUID id = id(call);
        ObjectNode document = AlarmDocument.of(found(id), scale);
        document.set("letters", AlarmDocument.letters(Recorded.of(() -> bell.letters(id)), scale));
        return Reply.json(document);
    }

    private static UUID id(Call call) throws Refused {
        String text = call.parameter("id");
        return Call.uuid(text).orElseThrow(() -> none(text));
    }

    private Alarm found(UUID id) throws Refused {
        return Recorded.of(() -> bell.find(id)).orElseThrow(() -> none(id.toString()));
    }

    private static Refused none(String id) {
        return new Refused(
                Kind.NOT_FOUND,
                "There is no alarm \"" + gylewarden.document.Fields.shortened(id) + "\". GET " + ALL
                        + "?all=true lists those that there are.");
    }

    private Reply shelve(Call call) throws Refused {
        Duration span =
                call.body(List.of("duration"), fields -> Typed.needed(fields, "duration", fields.duration("duration")));
        return asked(call, (id, actor) -> bell.quiet(id, span, actor));
    }

    private interface Word {
        Answer of(UUID alarm, String actor);
    }

    /** What needs no more words than that. */
    private Reply said(Call call, Word word) throws Refused {
        call.body(List.of(), fields -> Optional.of(fields.size()));
        return asked(call, word);
    }

    /** The reply is the alarm as it is from now on. */
    private Reply asked(Call call, Word word) throws Refused {
        Scale scale = call.units();
        UUID id = id(call);
        Answers.done(word.of(id, call.actor()));
        return Reply.json(AlarmDocument.of(found(id), scale));
    }
}

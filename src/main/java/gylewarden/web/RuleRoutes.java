package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.alarm.Rule;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.journal.AlarmAdvice;
import gylewarden.web.Bell.OutOfService;
import gylewarden.web.Problem.Kind;
import gylewarden.web.Route.Method;
import java.util.List;
import java.util.Optional;

/** What is looked at, and what a person has taken out of service. */
final class RuleRoutes {
    private static final String ALL = "/api/alarm-rules";

    private final Bell bell;

    RuleRoutes(Wired wired) {
        this.bell = wired.bell();
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, call -> Reply.json(documents())), Route.json(Method.PUT, ALL + "/{rule}", this::serve));
    }

    private ArrayNode documents() {
        ArrayNode list = Json.object().putArray("rules");
        for (Rule rule : Rule.values()) list.add(document(rule));
        return list;
    }

    private ObjectNode document(Rule rule) {
        List<OutOfService> out =
                bell.outOfService().stream().filter(each -> each.rule() == rule).toList();
        ObjectNode document = Json.object();
        document.put("rule", Words.camel(rule));
        document.put("name", AlarmAdvice.name(rule));
        document.put("priority", Words.camel(rule.priority()));
        document.put("ofBoard", rule.isOfTheBoard());
        if (rule.isOfTheBoard()) return document.put("inService", out.isEmpty());
        ArrayNode chambers = document.putArray("outOfServiceIn");
        out.forEach(each -> each.chamber().ifPresent(chambers::add));
        return document;
    }

    private Reply serve(Call call) throws Refused {
        Rule rule = rule(call.parameter("rule"));
        Wanted wanted = call.body(
                List.of("chamberId", "inService"),
                fields -> Typed.needed(fields, "inService", fields.flag("inService"))
                        .map(service -> new Wanted(fields.text("chamberId"), service)));
        Answers.done(bell.service(new OutOfService(rule, wanted.chamber()), wanted.inService(), call.actor()));
        return Reply.json(document(rule));
    }

    private record Wanted(Optional<String> chamber, boolean inService) {}

    private static Rule rule(String text) throws Refused {
        for (Rule rule : Rule.values()) if (Words.camel(rule).equals(text)) return rule;
        throw new Refused(
                Kind.NOT_FOUND,
                "There is no rule \"" + Fields.shortened(text) + "\". GET " + ALL + " lists those that there are.");
    }
}

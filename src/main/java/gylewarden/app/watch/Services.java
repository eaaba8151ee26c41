package gylewarden.app.watch;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.alarm.Rule;
import gylewarden.document.Json;
import gylewarden.store.Ledger;
import gylewarden.store.Outcome;
import gylewarden.store.Setting;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Which rules people have taken out of service, by chamber; kept in the record. */
record Services(Ledger ledger) implements OutOfService {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final String NAME = "alarms.out-of-service";
    /** Where a rule is about the board. */
    private static final String BOARD = "";

    @Override
    public Set<Rule> of(String chamber) {
        return rules(kept().path(chamber));
    }

    Set<Rule> ofBoard() {
        return rules(kept().path(BOARD));
    }

    private static Set<Rule> rules(JsonNode names) {
        Set<Rule> rules = EnumSet.noneOf(Rule.class);
        for (JsonNode name : names)
            for (Rule rule : Rule.values()) if (rule.name().equals(name.asText())) rules.add(rule);
        return rules;
    }

    /** What can't be read takes nothing out of service. */
    private JsonNode kept() {
        Optional<Setting> setting = ledger.setting(NAME).value();
        if (setting.isEmpty()) return Json.object();
        try {
            return Json.parse(setting.get().value());
        } catch (JsonProcessingException damaged) {
            LOG.warn("alarms: which rules are out of service can't be read, so all are in service.");
            return Json.object();
        }
    }

    /** @param chamber absent where the rule is about the board */
    Outcome keep(Rule rule, Optional<String> chamber, boolean inService) {
        ObjectNode next = Json.object();
        kept().properties().forEach(entry -> next.set(entry.getKey(), entry.getValue()));
        Set<Rule> rules = rules(next.path(chamber.orElse(BOARD)));
        if (inService) rules.remove(rule);
        else rules.add(rule);
        var names = next.putArray(chamber.orElse(BOARD));
        rules.forEach(each -> names.add(each.name()));
        long revision = ledger.setting(NAME).value().map(Setting::revision).orElse(0L) + 1;
        return ledger.keep(new Setting(NAME, next.toString(), revision));
    }
}

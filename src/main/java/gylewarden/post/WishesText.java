package gylewarden.post;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.control.Condition.Priority;
import gylewarden.document.Fields;
import gylewarden.document.Json;
import gylewarden.document.Unreadable;
import gylewarden.journal.Scale;
import gylewarden.schedule.Mistake;
import java.time.DateTimeException;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Wishes as JSON: as the API has them, and as they are kept. */
public final class WishesText {
    public static final List<String> FIELDS = List.of("from", "turn", "quiet", "summary", "units");
    /** Of what says nothing and only shines or sounds. */
    public static final List<String> FIELDS_OF_A_LAMP = List.of("from", "quiet");

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm");
    private static final Map<String, Priority> PRIORITIES =
            words("low", Priority.LOW, "middle", Priority.MIDDLE, "high", Priority.HIGH);
    private static final Map<String, Turn> TURNS =
            words("first", Turn.FIRST, "next", Turn.NEXT, "secondPerson", Turn.SECOND_PERSON);
    private static final Map<String, Scale> SCALES = Map.of("C", Scale.CELSIUS, "F", Scale.FAHRENHEIT);

    private WishesText() {}

    private static <T> Map<String, T> words(String a, T first, String b, T second, String c, T third) {
        Map<String, T> words = new LinkedHashMap<>();
        words.put(a, first);
        words.put(b, second);
        words.put(c, third);
        return words;
    }

    public static ObjectNode of(Wishes wishes) {
        ObjectNode json = Json.object();
        json.put("from", word(PRIORITIES, wishes.from()));
        json.put("turn", word(TURNS, wishes.turn()));
        wishes.quiet().ifPresent(hours -> {
            ObjectNode quiet = json.putObject("quiet");
            quiet.put("from", CLOCK.format(hours.from()));
            quiet.put("to", CLOCK.format(hours.to()));
            quiet.put("zone", hours.zone().getId());
        });
        json.put("summary", wishes.summary());
        json.put("units", word(SCALES, wishes.scale()));
        return json;
    }

    private static <T> String word(Map<String, T> words, T value) {
        return words.entrySet().stream()
                .filter(entry -> entry.getValue().equals(value))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    /**
     * What is not said stays as it is; quiet hours are taken away by {@code null}.
     *
     * @param zone of quiet hours that name none
     * @return empty if {@code fields} noted a mistake
     */
    public static Optional<Wishes> changed(Wishes before, Fields fields, ZoneId zone) {
        List<Mistake> own = new ArrayList<>();
        Priority from = choice(fields, "from", PRIORITIES, own).orElse(before.from());
        Turn turn = choice(fields, "turn", TURNS, own).orElse(before.turn());
        Scale scale = choice(fields, "units", SCALES, own).orElse(before.scale());
        boolean summary = fields.flag("summary").orElse(before.summary());
        Optional<QuietHours> quiet = before.quiet();
        if (fields.node("quiet").filter(JsonNode::isNull).isPresent()) quiet = Optional.empty();
        else if (fields.has("quiet")) quiet = fields.object("quiet").flatMap(hours -> quiet(hours, zone, own));
        own.forEach(mistake -> fields.mistake(mistake.field(), mistake.message()));
        if (!own.isEmpty()) return Optional.empty();
        return Optional.of(new Wishes(before.channel(), from, turn, quiet, summary, scale));
    }

    private static <T> Optional<T> choice(Fields fields, String name, Map<String, T> words, List<Mistake> mistakes) {
        Optional<String> text = fields.text(name);
        Optional<T> value = text.flatMap(word -> Optional.ofNullable(words.get(word)));
        if (text.isPresent() && value.isEmpty())
            mistakes.add(new Mistake(
                    name,
                    "is \"" + Fields.shortened(text.get()) + "\"; write one of " + String.join(", ", words.keySet())));
        return value;
    }

    private static Optional<QuietHours> quiet(Fields hours, ZoneId standard, List<Mistake> mistakes) {
        Optional<LocalTime> from = clock(hours, "from", mistakes);
        Optional<LocalTime> to = clock(hours, "to", mistakes);
        Optional<ZoneId> zone =
                hours.has("zone") ? hours.text("zone").flatMap(name -> zone(name, mistakes)) : Optional.of(standard);
        if (from.isPresent() && from.equals(to))
            mistakes.add(new Mistake("quiet.to", "is the same as from; leave a part of the day in which it may ring"));
        if (from.isEmpty() || to.isEmpty() || zone.isEmpty()) return Optional.empty();
        return Optional.of(new QuietHours(from.get(), to.get(), zone.get()));
    }

    private static Optional<LocalTime> clock(Fields hours, String name, List<Mistake> mistakes) {
        try {
            Optional<LocalTime> time = hours.text(name).map(text -> LocalTime.parse(text, CLOCK));
            if (time.isEmpty()) mistakes.add(new Mistake("quiet." + name, "write a time of the day such as \"22:00\""));
            return time;
        } catch (DateTimeException none) {
            mistakes.add(new Mistake("quiet." + name, "write a time of the day such as \"22:00\""));
            return Optional.empty();
        }
    }

    private static Optional<ZoneId> zone(String name, List<Mistake> mistakes) {
        try {
            return Optional.of(ZoneId.of(name));
        } catch (DateTimeException none) {
            mistakes.add(new Mistake("quiet.zone", "write a time zone such as \"Europe/Berlin\""));
            return Optional.empty();
        }
    }

    /** @throws Unreadable if it is not what {@link #of} wrote */
    public static Wishes read(String channel, String kept) throws Unreadable {
        try {
            List<Mistake> mistakes = new ArrayList<>();
            var fields = new Fields(Json.parse(kept), "", mistakes);
            Optional<Wishes> wishes = changed(Wishes.standard(channel), fields, ZoneOffset.UTC);
            if (wishes.isEmpty() || !mistakes.isEmpty())
                throw new Unreadable("the wishes of " + channel + ": " + mistakes);
            return wishes.get();
        } catch (JsonProcessingException e) {
            throw new Unreadable("the wishes of " + channel + " are no JSON");
        }
    }
}

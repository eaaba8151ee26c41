package gylewarden.message;

import gylewarden.journal.Letter;
import gylewarden.journal.Scale;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.UUID;

/**
 * What is carried in one go: a letter, or a summary of many.
 *
 * @param letter with its texts in the reader's unit
 * @param of which letters it is made
 */
record Parcel(Letter letter, List<UUID> of) {
    private static final DateTimeFormatter WHEN = DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

    Parcel {
        of = List.copyOf(of);
    }

    static Parcel single(Letter letter, Scale scale) {
        return new Parcel(
                with(letter, letter.kind(), letter.subject(), letter.text(), scale, letter.id()), List.of(letter.id()));
    }

    /** All of them in the order in which they were made. The same letters make the same id. */
    static Parcel summary(List<Letter> letters, Scale scale, ZoneId zone) {
        StringBuilder text = new StringBuilder();
        StringBuilder name = new StringBuilder();
        for (Letter each : letters) {
            text.append(WHEN.format(each.made().atZone(zone)))
                    .append("  ")
                    .append(each.subject())
                    .append('\n');
            name.append(each.id());
        }
        Letter first = letters.get(0);
        UUID id = UUID.nameUUIDFromBytes(name.toString().getBytes(java.nio.charset.StandardCharsets.UTF_8));
        String subject =
                letters.size() + " messages since " + WHEN.format(first.made().atZone(zone));
        return new Parcel(
                with(first, Letter.Kind.SUMMARY, subject, text.toString(), scale, id),
                letters.stream().map(Letter::id).toList());
    }

    private static Letter with(Letter letter, Letter.Kind kind, String subject, String text, Scale scale, UUID id) {
        return new Letter(
                id,
                kind == Letter.Kind.SUMMARY ? java.util.Optional.empty() : letter.alarm(),
                letter.channel(),
                kind,
                letter.priority(),
                scale.rephrase(subject),
                scale.rephrase(text),
                letter.made(),
                letter.notBefore(),
                letter.giveUp());
    }
}

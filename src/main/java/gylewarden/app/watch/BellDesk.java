package gylewarden.app.watch;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarms;
import gylewarden.alarm.Rule;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Clocks;
import gylewarden.control.Condition.Priority;
import gylewarden.journal.AlarmAdvice;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Letter;
import gylewarden.message.ChannelState;
import gylewarden.post.Away;
import gylewarden.post.PostRules;
import gylewarden.post.Text;
import gylewarden.post.Turn;
import gylewarden.post.Wishes;
import gylewarden.store.Found;
import gylewarden.store.Ledger;
import gylewarden.store.Outbox;
import gylewarden.store.Outbox.Went;
import gylewarden.store.Outcome;
import gylewarden.store.RecordFailed;
import gylewarden.store.Setting;
import gylewarden.web.Bell;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.function.Supplier;

/** People's words about alarms and messages. */
public final class BellDesk implements Bell {
    static final String LAMP = "relay";
    static final String HEARTBEAT = "heartbeat";
    private static final Duration TEST_GIVEN_UP = Duration.ofMinutes(10);
    private static final Duration LONGEST_AWAY = Duration.ofDays(180);
    private static final Duration A_DAY = Duration.ofHours(24);
    private static final String AWAY = "away";
    private static final String LINE = "away.line";

    private final Watchman watchman;
    private final Outbox outbox;
    private final Ledger ledger;
    private final WishBook book;
    private final Services services;
    private final Clocks clocks;
    private final Away away;
    private final Around around;
    /** Tests under way, and where they go. */
    private final Map<UUID, String> tests = new ConcurrentHashMap<>();
    /** When tests arrived that are not written down yet. */
    private final Map<String, Instant> unkept = new ConcurrentHashMap<>();

    /**
     * What stands around it.
     *
     * @param kinds of the channels that people can reach, by their names
     * @param states of the channels
     * @param lit whether a lamp is; absent for what is none
     * @param tries how to test what carries no letters, by its name
     * @param mended tells a chamber that what it has latched may try again
     * @param said tells the record that somebody said something of no alarm
     */
    public record Around(
            List<Room> rooms,
            Function<String, Optional<ChamberStatus>> status,
            Map<String, String> kinds,
            Supplier<List<ChannelState>> states,
            Function<String, Optional<Boolean>> lit,
            Map<String, Supplier<Answer>> tries,
            Mended mended,
            Said said) {}

    /** Tells a chamber. */
    public interface Mended {
        Answer chamber(String chamber, String actor);
    }

    /** Tells the record. */
    public interface Said {
        void that(String kind, String sentence, String actor);
    }

    public BellDesk(Watchman watchman, Outbox outbox, Ledger ledger, Clocks clocks, ZoneId zone, Around around) {
        this.watchman = watchman;
        this.outbox = outbox;
        this.ledger = ledger;
        this.book = new WishBook(ledger);
        this.services = new Services(ledger);
        this.clocks = clocks;
        this.away = new Away(zone);
        this.around = around;
    }

    @Override
    public List<Alarm> open() {
        return watchman.open();
    }

    @Override
    public List<Alarm> all(Optional<Alarm> before, int most) throws RecordFailed {
        return all(outbox.alarms(before, most));
    }

    @Override
    public Optional<Alarm> find(UUID alarm) throws RecordFailed {
        Optional<Alarm> open =
                open().stream().filter(each -> each.id().equals(alarm)).findFirst();
        if (open.isPresent()) return open;
        Found<Optional<Alarm>> found = outbox.alarm(alarm);
        if (found.value().isEmpty() && found.missing().isPresent())
            throw new RecordFailed(found.missing().get());
        return found.value();
    }

    @Override
    public List<Went> letters(UUID alarm) throws RecordFailed {
        return all(outbox.letters(alarm));
    }

    /** What is in memory is worth showing; nothing at all is not. */
    private static <C extends Collection<?>> C all(Found<C> found) throws RecordFailed {
        if (found.value().isEmpty() && found.missing().isPresent())
            throw new RecordFailed(found.missing().get());
        return found.value();
    }

    @Override
    public Answer acknowledge(UUID alarm, String actor) {
        return said(alarm, actor, (alarms, now) -> alarms.acknowledge(alarm, actor, now));
    }

    @Override
    public Answer quiet(UUID alarm, Duration span, String actor) {
        if (span.compareTo(Alarms.SHORTEST_QUIET) < 0 || span.compareTo(Alarms.LONGEST_QUIET) > 0)
            return Answer.Refused.of(
                    Answer.Why.NOT_ALLOWED, "duration", "is " + span + "; it can be quiet for 1 min to 7 days");
        return said(alarm, actor, (alarms, now) -> alarms.shelve(alarm, span, now));
    }

    @Override
    public Answer loud(UUID alarm, String actor) {
        return said(alarm, actor, (alarms, now) -> alarms.unshelve(alarm, now));
    }

    @Override
    public Answer mended(UUID alarm, String actor) {
        Optional<Alarm> found = watchman.say(alarm, actor, (alarms, now) -> alarms.reset(alarm, actor, now));
        if (found.isEmpty()) return none();
        return found.get()
                .key()
                .chamber()
                .map(chamber -> around.mended().chamber(chamber, actor))
                .orElse(DONE);
    }

    static final Answer DONE = new Answer.Done(Optional.empty(), Optional.empty());

    private Answer said(UUID alarm, String actor, Watchman.Word word) {
        return watchman.say(alarm, actor, word).map(found -> DONE).orElseGet(BellDesk::none);
    }

    private static Answer none() {
        return Answer.Refused.of(
                Answer.Why.NOT_FOUND, "", "There is no such alarm open. It may be over; load the page again.");
    }

    @Override
    public List<OutOfService> outOfService() {
        List<OutOfService> all = new ArrayList<>();
        for (Room room : around.rooms())
            for (Rule rule : services.of(room.id())) all.add(new OutOfService(rule, Optional.of(room.id())));
        for (Rule rule : services.ofBoard()) all.add(new OutOfService(rule, Optional.empty()));
        return all;
    }

    @Override
    public Answer service(OutOfService where, boolean inService, String actor) {
        if (where.rule().isOfTheBoard() == where.chamber().isPresent())
            return Answer.Refused.of(
                    Answer.Why.NOT_ALLOWED,
                    "chamberId",
                    where.chamber().isPresent()
                            ? "this rule is about the board: leave it out"
                            : "say of which chamber");
        boolean known = where.chamber()
                .map(id -> around.rooms().stream().anyMatch(room -> room.id().equals(id)))
                .orElse(true);
        if (!known) return Answer.Refused.of(Answer.Why.NOT_FOUND, "chamberId", "there is no such chamber");
        Outcome outcome = services.keep(where.rule(), where.chamber(), inService);
        String place = where.chamber()
                .flatMap(id -> around.rooms().stream()
                        .filter(room -> room.id().equals(id))
                        .findFirst())
                .map(room -> room.name() + ": ")
                .orElse("");
        around.said()
                .that(
                        "Service",
                        place + "\"" + AlarmAdvice.name(where.rule()) + "\" "
                                + (inService ? "is looked at again." : "is no longer looked at."),
                        actor);
        return answer(outcome);
    }

    @Override
    public List<Line> channels() {
        List<Line> lines = new ArrayList<>();
        for (ChannelState state : around.states().get())
            if (around.kinds().containsKey(state.channel())) lines.add(line(state));
        return lines;
    }

    private Line line(ChannelState state) {
        String name = state.channel();
        return new Line(
                name,
                around.kinds().get(name),
                isHeartbeat(name) ? Optional.empty() : Optional.of(book.of(name)),
                state.waiting(),
                state.lastArrived(),
                state.failing().map(failing -> new Failing(failing.since(), failing.tries(), failing.why())),
                tested(name),
                around.lit().apply(name));
    }

    private boolean isHeartbeat(String channel) {
        return HEARTBEAT.equals(around.kinds().get(channel));
    }

    private boolean carriesLetters(String channel) {
        return !around.tries().containsKey(channel);
    }

    @Override
    public Answer wish(Wishes wishes, String actor) {
        if (!around.kinds().containsKey(wishes.channel()) || isHeartbeat(wishes.channel()))
            return noChannel(wishes.channel());
        Outcome outcome = book.keep(wishes);
        around.said().that("Wishes", "What is sent by " + wishes.channel() + " is changed.", actor);
        return answer(outcome);
    }

    private static Answer answer(Outcome outcome) {
        return new Answer.Done(
                Optional.empty(),
                outcome.fold(
                        saved -> Optional.empty(),
                        notSaved -> Optional.of(notSaved.why().sentence())));
    }

    private Answer noChannel(String channel) {
        return Answer.Refused.of(
                Answer.Why.NOT_FOUND,
                "",
                "There is no channel \"" + channel + "\"; there are "
                        + String.join(", ", around.kinds().keySet()) + ". They stand in the config.");
    }

    @Override
    public Answer test(String channel, String actor) {
        if (!around.kinds().containsKey(channel)) return noChannel(channel);
        Optional<Supplier<Answer>> itself = Optional.ofNullable(around.tries().get(channel));
        if (itself.isPresent()) return itself.get().get();
        Instant now = clocks.board().get().wall();
        UUID id = UUID.randomUUID();
        tests.put(id, channel);
        watchman.post(new Letter(
                id,
                Optional.empty(),
                channel,
                Letter.Kind.TEST,
                Priority.LOW,
                "A test of " + channel,
                "This is a test, asked for by " + actor + ". Nothing is the matter.",
                now,
                now,
                now.plus(TEST_GIVEN_UP)));
        return answer(outbox.carried());
    }

    /** A letter has arrived. */
    public void arrived(UUID letter) {
        Optional.ofNullable(tests.remove(letter))
                .ifPresent(channel ->
                        keep(testedName(channel), clocks.board().get().wall().toString()));
    }

    /** A test of what carries no letters has worked. Returns at once; {@link #keepTests} writes it down. */
    void worked(String channel) {
        unkept.put(channel, clocks.board().get().wall());
    }

    /** Now and then: may wait for the disk. */
    void keepTests() {
        unkept.forEach((channel, at) ->
                keep(testedName(channel), at.toString()).fold(saved -> unkept.remove(channel, at), notSaved -> false));
    }

    private static String testedName(String channel) {
        return "message." + channel + ".tested";
    }

    private Optional<Instant> tested(String channel) {
        return Optional.ofNullable(unkept.get(channel))
                .or(() -> ledger.setting(testedName(channel)).value().flatMap(kept -> instant(kept.value())));
    }

    private Outcome keep(String name, String value) {
        long revision = ledger.setting(name).value().map(Setting::revision).orElse(0L) + 1;
        return ledger.keep(new Setting(name, value, revision));
    }

    private static Optional<Instant> instant(String text) {
        try {
            return Optional.of(Instant.parse(text));
        } catch (DateTimeParseException damaged) {
            return Optional.empty();
        }
    }

    @Override
    public ZoneId zone() {
        return away.zone();
    }

    @Override
    public Optional<Instant> awayUntil() {
        return ledger.setting(AWAY)
                .value()
                .flatMap(kept -> instant(kept.value()))
                .filter(until -> clocks.board().get().wall().isBefore(until));
    }

    @Override
    public List<String> beforeGoing(Instant until) {
        List<Away.Way> ways = channels().stream()
                .map(line -> new Away.Way(
                        line.name(), line.tested(), line.failing().map(Failing::why), carriesLetters(line.name())))
                .toList();
        return away.before(clocks.board().get().wall(), until, chambers(), ways, open());
    }

    private List<Away.Chamber> chambers() {
        List<Away.Chamber> chambers = new ArrayList<>();
        for (Room room : around.rooms())
            around.status().apply(room.id()).ifPresent(status -> chambers.add(new Away.Chamber(room.name(), status)));
        return chambers;
    }

    @Override
    public Answer away(Optional<Instant> until, String actor) {
        Instant now = clocks.board().get().wall();
        if (until.isPresent() && (!until.get().isAfter(now) || until.get().isAfter(now.plus(LONGEST_AWAY))))
            return Answer.Refused.of(
                    Answer.Why.NOT_ALLOWED, "until", "is not within the next " + LONGEST_AWAY.toDays() + " days");
        Outcome outcome = keep(AWAY, until.map(Instant::toString).orElse("back"));
        around.said().that("Away", until.map(end -> "Away until " + end + ".").orElse("Back again."), actor);
        return answer(outcome);
    }

    /** Now and then: the line of the day, if somebody is away and it is a day since the last. */
    public void day() {
        if (awayUntil().isEmpty()) return;
        Instant now = clocks.board().get().wall();
        Optional<Instant> last = ledger.setting(LINE).value().flatMap(kept -> instant(kept.value()));
        boolean due = last.filter(
                        at -> !at.isAfter(now) && Duration.between(at, now).compareTo(A_DAY) < 0)
                .isEmpty();
        if (!due) return;
        var unused = keep(LINE, now.toString());
        Text text = away.line(chambers(), open());
        for (Line line : channels())
            if (carriesLetters(line.name())
                    && line.wishes()
                            .filter(wishes -> wishes.turn() == Turn.FIRST)
                            .isPresent())
                watchman.post(new Letter(
                        UUID.randomUUID(),
                        Optional.empty(),
                        line.name(),
                        Letter.Kind.ALL_IS_WELL,
                        Priority.LOW,
                        text.subject(),
                        text.body(),
                        now,
                        now,
                        now.plus(PostRules.GIVEN_UP_AFTER)));
    }
}

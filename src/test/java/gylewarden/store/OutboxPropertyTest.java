package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Change;
import gylewarden.journal.Letter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Alarms, letters and what becomes of them at random, on real files that fail and with kills in between. After each kill the
 * next life finds what had been stored, to the last field and in order, and nothing that had ended.
 */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class OutboxPropertyTest {
    private static final List<String> CHANNELS = List.of("mail", "lamp", "hook");

    private enum Happens {
        ADD,
        SETTLE,
        SETTLE_AGAIN,
        STORE,
        FOLDER_GOES,
        FOLDER_COMES,
        DAMAGE,
        KILL
    }

    @TempDir
    Path root;

    private final FakeBoard board = FakeBoard.inMarch();
    private final Map<Happens, Integer> happened = new EnumMap<>(Happens.class);
    private int lives;
    private int sentWhileBroken;
    private int lostByKill;
    private Path data = Path.of("");
    private Database database = new Database(Path.of(""), () -> board.get().wall());
    private Recorder recorder = new Recorder(database, board, event -> {});

    /** As people would count: all that still matters, and how much of it the disk has. */
    private Map<UUID, Post> posts = new LinkedHashMap<>();

    private Map<UUID, Alarm> alarms = new LinkedHashMap<>();
    private Map<UUID, Post> storedPosts = Map.of();
    private Map<UUID, Alarm> storedAlarms = Map.of();
    private final List<UUID> ended = new ArrayList<>();
    private long number;

    @AfterEach
    void close() {
        database.close();
    }

    /** Each opens several databases on a disk. */
    static LongStream seeds() {
        return LongStream.range(0, Math.min(100, Long.getLong("gylewarden.seeds", 1000)));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void none_is_lost_none_comes_back_and_the_order_is_kept(long seed) throws Exception {
        var random = new Random(seed);
        begin(Files.createDirectory(root.resolve("life-0")));
        for (Happens each : story(random)) {
            happened.merge(each, 1, Integer::sum);
            board.pass(Duration.ofSeconds(random.nextInt(90)));
            happen(each, random);
            assertEquals(
                    List.copyOf(posts.values()),
                    List.copyOf(recorder.known().mail().posts().values()));
            assertEquals(alarms, recorder.known().mail().alarms());
        }
        assertEquals(Happens.values().length, happened.size(), "this seed left something out: " + happened);
        assertTrue(sentWhileBroken > 0, "nothing went out while the record was broken");
        assertTrue(lostByKill > 0, "no kill came before something was stored");
        assertEquals(Waiting.Dropped.NOTHING, recorder.waiting().dropped());
    }

    /** Everything in some order; and surely a kill, and letters that go out, while the folder is away. */
    private static List<Happens> story(Random random) {
        List<Happens> story = new ArrayList<>();
        for (int i = 0; i < 30; i++) story.add(Happens.values()[random.nextInt(Happens.values().length)]);
        for (int i = 0; i < 25; i++) story.add(Happens.values()[random.nextInt(4)]);
        story.addAll(List.of(Happens.values()));
        Collections.shuffle(story, random);
        story.addAll(List.of(
                Happens.FOLDER_COMES,
                Happens.ADD,
                Happens.STORE,
                Happens.FOLDER_GOES,
                Happens.ADD,
                Happens.SETTLE,
                Happens.STORE,
                Happens.SETTLE,
                Happens.KILL,
                Happens.ADD,
                Happens.STORE,
                Happens.KILL));
        return story;
    }

    private void happen(Happens what, Random random) throws IOException {
        switch (what) {
            case ADD -> add(random);
            case SETTLE -> settle(random);
            case SETTLE_AGAIN -> settleAgain(random);
            case STORE -> store();
            case FOLDER_GOES -> move(data, away());
            case FOLDER_COMES -> move(away(), data);
            case DAMAGE -> damage();
            case KILL -> kill();
        }
    }

    private Path away() {
        return data.resolveSibling(data.getFileName() + ".away");
    }

    private boolean isAway() {
        return Files.exists(away());
    }

    private static void move(Path from, Path to) throws IOException {
        if (Files.exists(from)) Files.move(from, to);
    }

    private void begin(Path folder) {
        data = folder;
        database = new Database(folder, () -> board.get().wall());
        recorder = new Recorder(database, board, event -> {});
        recorder.flush();
        assertTrue(recorder.state().isSound());
    }

    private void add(Random random) {
        List<Change> changes = new ArrayList<>();
        List<Letter> letters = new ArrayList<>();
        long alarm = number;
        if (!alarms.isEmpty() && random.nextBoolean()) {
            Alarm old = List.copyOf(alarms.values()).get(random.nextInt(alarms.size()));
            alarm = old.id().getLeastSignificantBits();
            boolean over = random.nextBoolean();
            Alarm.State state = over ? Alarm.State.NORMAL : Alarm.State.ACKNOWLEDGED;
            Alarm changed = MailRows.alarm(alarm, state, old.raised());
            changes.add(new Change(
                    changed,
                    over ? Change.What.RETURNED : Change.What.SEEN,
                    board.get().wall()));
            alarms.put(changed.id(), changed);
            if (over) alarms.remove(changed.id());
        } else {
            Change raised = MailRows.raised(alarm, board.get().wall());
            changes.add(raised);
            alarms.put(raised.alarm().id(), raised.alarm());
        }
        for (String channel : CHANNELS) {
            Letter letter =
                    MailRows.letter(number++, alarm, channel, board.get().wall());
            letters.add(letter);
            posts.put(letter.id(), Post.of(letter, board.get()));
        }
        recorder.add(board.get(), changes, letters, List.of());
    }

    private void settle(Random random) {
        if (posts.isEmpty()) return;
        Post one = List.copyOf(posts.values()).get(random.nextInt(posts.size()));
        Fate fate = switch (random.nextInt(3)) {
            case 0 -> MailRows.tried(1 + one.posted().attempts(), board.get().wall());
            case 1 -> new Fate.Sent(board.get().wall());
            default -> new Fate.GivenUp(board.get().wall(), "Two days are over.");
        };
        assertTrue(recorder.settle(one.id(), fate));
        if (isAway()) sentWhileBroken++;
        posts.put(one.id(), one.after(fate));
        if (!one.after(fate).waits()) {
            posts.remove(one.id());
            ended.add(one.id());
        }
    }

    private void settleAgain(Random random) {
        if (ended.isEmpty()) return;
        UUID one = ended.get(random.nextInt(ended.size()));
        assertFalse(recorder.settle(one, MailRows.tried(1, board.get().wall())));
    }

    private void store() {
        board.pass(Recorder.LONGEST_PAUSE.plus(Recorder.EVENTS_WAIT));
        recorder.step();
        assertEquals(!isAway(), recorder.state().isSound());
        if (!recorder.waiting().mail().isEmpty()) return;
        storedPosts = new LinkedHashMap<>(posts);
        storedAlarms = Map.copyOf(alarms);
    }

    /** It is met, and set aside, at the next write; a folder that is away has no file to be damaged. */
    private void damage() throws IOException {
        if (isAway()) return;
        store();
        database.close();
        Files.writeString(data.resolve(Database.FILE), "no database any more");
        recorder.flush();
        assertTrue(recorder.state().isSound());
        assertTrue(recorder.waiting().mail().isEmpty(), "the new one was given what matters");
    }

    /** The files as they are at this moment, and nothing that is only in memory. */
    private void kill() throws IOException {
        Path next = Files.createDirectory(root.resolve("life-" + ++lives));
        try (var files = Files.list(isAway() ? away() : data)) {
            for (Path file : files.toList()) {
                String name = file.getFileName().toString();
                if (name.equals(Database.FILE) || name.equals(Database.FILE + "-wal"))
                    Files.copy(file, next.resolve(name));
            }
        }
        if (!posts.equals(storedPosts) || !alarms.equals(storedAlarms)) lostByKill++;
        database.close();
        posts = new LinkedHashMap<>(storedPosts);
        alarms = new LinkedHashMap<>(storedAlarms);
        ended.removeIf(posts::containsKey); // it had not been stored that it ended, so it goes out once more
        begin(next);
    }
}

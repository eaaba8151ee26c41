package gylewarden.app.watch;

import gylewarden.alarm.BoardSight;
import gylewarden.app.Repeating;
import gylewarden.app.config.MessageConfig;
import gylewarden.chamber.Answer;
import gylewarden.chamber.Clocks;
import gylewarden.control.Condition;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Scale;
import gylewarden.message.BrokerAlarms;
import gylewarden.message.Channel;
import gylewarden.message.ChannelState;
import gylewarden.message.Email;
import gylewarden.message.Heartbeat;
import gylewarden.message.PostOffice;
import gylewarden.message.PostOffice.Round;
import gylewarden.message.Webhook;
import gylewarden.post.PostRules.Now;
import gylewarden.post.Turn;
import gylewarden.post.Wishes;
import gylewarden.relay.Relay;
import gylewarden.store.Fate;
import gylewarden.store.Ledger;
import gylewarden.store.Outbox;
import gylewarden.store.Posted;
import gylewarden.store.RecordState;
import gylewarden.units.Uptime;
import gylewarden.web.Bell;
import java.io.IOException;
import java.lang.Thread.UncaughtExceptionHandler;
import java.net.http.HttpClient;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;

/** All that stands around the alarms, wired by hand: the thread that looks, the ways to reach people, and their wishes. */
public final class Sentry implements AutoCloseable {
    private static final Duration LOOKS_EACH = Duration.ofSeconds(1);
    private static final Duration BEATS_LOOKED_AT_EACH = Duration.ofSeconds(5);
    private static final Duration MINUTE = Duration.ofMinutes(1);
    /** A hiccup of the network is nobody's business. */
    private static final int FAILS_AFTER_TRIES = 3;
    /** For programs, which count. */
    private static final Wishes EVERY_CHANGE =
            new Wishes(BrokerAlarms.NAME, Condition.Priority.LOW, Turn.FIRST, Optional.empty(), false, Scale.CELSIUS);

    private final Deque<Runnable> closing = new ArrayDeque<>();
    private final Site site;
    private final Keeping record;
    private final Watchman watchman;
    private final BellDesk bell;
    private final Services services;
    private final PostOffice office;
    private final Map<String, Heartbeat> heartbeats = new LinkedHashMap<>();
    private final Map<String, Lamp> lamps = new LinkedHashMap<>();
    /** How to try what carries no letters. */
    private final Map<String, Supplier<Answer>> tries = new LinkedHashMap<>();

    private volatile Optional<Long> freeMegabytes = Optional.empty();

    /**
     * Where it stands.
     *
     * @param data the folder of the record
     * @param zone in which people there tell the time
     * @param restarted when this daemon started, if the one before did not end in order
     * @param bug is told what threads of ours throw
     */
    public record Site(
            List<Room> rooms,
            Clocks clocks,
            Path data,
            ZoneId zone,
            Optional<Uptime> restarted,
            Daemon daemon,
            UncaughtExceptionHandler bug) {}

    /**
     * The daemon around it.
     *
     * @param late the chambers whose loop does not tick
     * @param relaysOff whether a person has switched every relay off, lamps too
     * @param dataFolder why the data folder is not the one that the daemon opened; waits for no disk
     * @param broker why the broker can't be reached, if there is one
     * @param backup why the backup that is due could not be made
     */
    public record Daemon(
            Supplier<List<String>> late,
            BooleanSupplier relaysOff,
            Supplier<Optional<String>> dataFolder,
            Supplier<Optional<String>> broker,
            Supplier<Optional<String>> backup) {}

    /**
     * What it keeps and tells.
     *
     * @param status the latest of a chamber
     * @param told hears of each change
     */
    public record Keeping(
            Outbox outbox,
            Ledger ledger,
            Supplier<RecordState> state,
            Function<String, Optional<ChamberStatus>> status,
            BeerBefore beerBefore,
            Consumer<Watchman.Told> told) {}

    /** What people's words reach beside the alarms. */
    public record People(BellDesk.Mended mended, BellDesk.Said said) {}

    /** Begins to look, and to send. */
    public static Sentry open(Site site, Keeping record, People people, Ways ways) {
        return new Sentry(site, record, people, ways);
    }

    private Sentry(Site site, Keeping record, People people, Ways ways) {
        this.site = site;
        this.record = record;
        var book = new WishBook(record.ledger());
        this.services = new Services(record.ledger());
        Map<String, String> kinds = new LinkedHashMap<>();
        List<Channel> channels = channels(ways, kinds);
        this.watchman = new Watchman(
                site.rooms(),
                new Watchman.View(
                        record.status(),
                        this::board,
                        () -> channels.stream()
                                .map(channel -> wishes(book, channel.name()))
                                .toList(),
                        services,
                        record.beerBefore(),
                        ways.stream()),
                record.outbox(),
                site.clocks(),
                site.zone(),
                this::told);
        for (MessageConfig message : ways.messages())
            message.lamp().ifPresent(relay -> lamp(message.name(), ways.relays().get(relay), book, kinds));
        heartbeats(ways.messages(), kinds);
        this.bell = new BellDesk(
                watchman,
                record.outbox(),
                record.ledger(),
                site.clocks(),
                site.zone(),
                new BellDesk.Around(
                        site.rooms(),
                        record.status(),
                        kinds,
                        this::states,
                        this::lit,
                        tries,
                        people.mended(),
                        people.said()));
        List<Round> rounds = new ArrayList<>();
        for (Channel channel : channels) rounds.add(new Round(channel, () -> wishes(book, channel.name())));
        ways.stream()
                .ifPresent(to -> rounds.add(new Round(new BrokerAlarms(to.link(), to.root()), () -> EVERY_CHANGE)));
        this.office = PostOffice.open(rounds, tray(), this::now, site.zone(), new SplittableRandom(), site.bug());
        closing.push(office::close);
        ways.stream()
                .ifPresent(to -> to.link().watch(state -> {
                    if (state.isConnected()) office.hurry(BrokerAlarms.NAME);
                }));
        heartbeats.forEach((name, heartbeat) -> repeat("heartbeat-" + name, BEATS_LOOKED_AT_EACH, heartbeat::beat));
        repeat("alarms", LOOKS_EACH, this::look);
        repeat("daily", MINUTE, this::day);
        repeat("disk", MINUTE, this::lookAtDisk);
    }

    private void repeat(String name, Duration each, Runnable work) {
        var repeating = new Repeating(name, site.bug());
        closing.push(repeating::close);
        repeating.each(each, work);
    }

    private List<Channel> channels(Ways ways, Map<String, String> kinds) {
        List<Channel> channels = new ArrayList<>(ways.more());
        ways.more().forEach(channel -> kinds.put(channel.name(), "page"));
        Optional<HttpClient> client = Optional.empty();
        for (MessageConfig message : ways.messages()) {
            String name = message.name();
            if (message.way() instanceof MessageConfig.Mail mail) {
                channels.add(new Email(name, mail.server()));
                kinds.put(name, "email");
            }
            if (message.way() instanceof MessageConfig.Hook hook) {
                if (client.isEmpty()) client = Optional.of(Webhook.client());
                InstantSource wall = () -> site.clocks().board().get().wall();
                channels.add(new Webhook(name, hook.call(), wall, client.get()));
                kinds.put(name, "webhook");
            }
        }
        return channels;
    }

    private Wishes wishes(WishBook book, String channel) {
        Wishes wishes = book.of(channel);
        return site.clocks().board().get().trusted() ? wishes : wishes.withoutQuiet();
    }

    private void lamp(String name, Relay relay, WishBook book, Map<String, String> kinds) {
        var lamp = new Lamp(name, relay, () -> wishes(book, name), () -> worked(name));
        lamps.put(name, lamp);
        kinds.put(name, BellDesk.LAMP);
        tries.put(name, () -> {
            if (site.daemon().relaysOff().getAsBoolean())
                return Answer.Refused.of(
                        Answer.Why.NOT_NOW, "", "Every relay is switched off, this one too. Switch on again first.");
            lamp.blink();
            return BellDesk.DONE;
        });
    }

    private void heartbeats(List<MessageConfig> messages, Map<String, String> kinds) {
        for (MessageConfig message : messages)
            if (message.way() instanceof MessageConfig.Heartbeat heart) {
                String name = message.name();
                var heartbeat = new Heartbeat(
                        name,
                        heart.address(),
                        heart.every(),
                        Webhook.client(),
                        this::isHealthy,
                        this::now,
                        () -> worked(name));
                heartbeats.put(name, heartbeat);
                kinds.put(name, BellDesk.HEARTBEAT);
                tries.put(
                        name,
                        () -> heartbeat.ask()
                                ? BellDesk.DONE
                                : Answer.Refused.of(
                                        Answer.Why.NOT_NOW,
                                        "",
                                        "It keeps silent, for not all is well: a loop does not tick, or a chamber does"
                                                + " not know its beer's temperature. A beat now would say the opposite."));
            }
    }

    private void worked(String name) {
        bell.worked(name);
    }

    private Optional<Boolean> lit(String channel) {
        return Optional.ofNullable(lamps.get(channel)).map(Lamp::isLit);
    }

    /** Every loop ticks and no chamber has lost its only probe, nor waits for its first reading. */
    private boolean isHealthy() {
        return site.daemon().late().get().isEmpty()
                && site.rooms().stream()
                        .allMatch(room -> record.status()
                                .apply(room.id())
                                .filter(Sentry::isKnown)
                                .isPresent());
    }

    private static boolean isKnown(ChamberStatus status) {
        boolean standsIn = status.conditions().contains(Condition.BEER_PROBE_DOUBTED);
        return !status.conditions().contains(Condition.ONLY_PROBE_LOST)
                && (standsIn || status.readings().deciding().believed().isPresent());
    }

    private PostOffice.Tray tray() {
        Outbox outbox = record.outbox();
        return new PostOffice.Tray() {
            @Override
            public List<Posted> waiting(String channel) {
                return outbox.waiting(channel);
            }

            @Override
            public boolean settled(UUID letter, Fate fate) {
                boolean settled = outbox.settled(letter, fate);
                if (fate instanceof Fate.Sent) bell.arrived(letter);
                return settled;
            }
        };
    }

    private Now now() {
        return new Now(
                site.clocks().monotonic().read(), site.clocks().board().get().wall());
    }

    private void told(Watchman.Told told) {
        record.told().accept(told);
    }

    /** Looks at everything now, as it does each second by itself. */
    public void look() {
        watchman.look();
        boolean off = site.daemon().relaysOff().getAsBoolean();
        Instant wall = site.clocks().board().get().wall();
        for (Lamp lamp : lamps.values()) {
            if (off) lamp.off(wall);
            else lamp.show(watchman.open(), wall);
        }
        office.look();
    }

    /** Sends the line of the day if it is time for it, as it looks each minute by itself. */
    public void day() {
        bell.keepTests();
        bell.day();
    }

    private List<ChannelState> states() {
        List<ChannelState> states = new ArrayList<>(office.states());
        lamps.values().forEach(each -> states.add(each.state()));
        heartbeats.values().forEach(each -> states.add(each.state()));
        return states;
    }

    private BoardSight board() {
        Map<String, String> failing = new LinkedHashMap<>();
        for (ChannelState state : states())
            state.failing()
                    .filter(each -> each.tries() >= FAILS_AFTER_TRIES)
                    // That the broker is away is an alarm of its own.
                    .filter(each -> !state.channel().equals(BrokerAlarms.NAME))
                    .ifPresent(each -> failing.put(state.channel(), each.why()));
        RecordState state = record.state().get();
        Optional<String> away = site.daemon().dataFolder().get();
        return new BoardSight(
                site.restarted(),
                away,
                // Of one cause there is one alarm.
                state.isSound() || away.isPresent() ? Optional.empty() : Optional.of(state.sentence()),
                freeMegabytes,
                site.clocks().board().get().trusted(),
                site.daemon().broker().get(),
                failing,
                site.daemon().backup().get(),
                services.ofBoard());
    }

    /** A disk that hangs holds up this thread alone. */
    private void lookAtDisk() {
        try {
            freeMegabytes = Optional.of(Files.getFileStore(site.data()).getUsableSpace() / 1_000_000);
        } catch (IOException e) {
            // A folder that is gone is told by the record.
            freeMegabytes = Optional.empty();
        }
    }

    public Bell bell() {
        return bell;
    }

    public Watchman watchman() {
        return watchman;
    }

    @Override
    public void close() {
        for (Runnable end = closing.poll(); end != null; end = closing.poll()) end.run();
    }
}

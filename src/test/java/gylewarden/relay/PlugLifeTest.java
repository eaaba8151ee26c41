package gylewarden.relay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Two loads behind plugs, in hours in which all that can fail does; judged by what the plugs did. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(300)
class PlugLifeTest {
    private static final Duration LEASE = Duration.ofSeconds(15);
    private static final Duration AUTO_OFF = Duration.ofSeconds(60);
    /** Real time: answers come at once or, on virtual time, when nobody waits any more. */
    private static final Duration PATIENCE = Duration.ofMillis(1);
    /** How long a caller keeps a load off, and both between one and the other. */
    private static final Duration APART = Duration.ofSeconds(60);
    /** How long the network has to be well before it is no excuse: a failed write is tried again each second. */
    private static final Duration WELL = Duration.ofSeconds(5);

    private static final int SECONDS = 2400;

    private enum Trouble {
        BROKER_AWAY,
        PLUG_DEAD,
        SLOW,
        PLUG_LOSES_POWER,
        BUTTON,
        DAEMON_KILLED,
        DAEMON_KILLED_WITHOUT_A_WILL,
        LOOP_STANDS_STILL,
        NONE
    }

    static LongStream seeds() {
        return LongStream.range(0, Math.max(10, Long.getLong("gylewarden.seeds", 1000) / 20));
    }

    /** One load: its plug, its relay in this life of the daemon, and what a loop knows of it. */
    private static final class Load {
        final PlugNetwork.Plug plug;
        private final PlugNetwork network;
        private PlugNetwork.Line line;
        private LeasedRelay relay;
        Switched did;
        Uptime wished = Uptime.ofSeconds(-10_000);
        Optional<Uptime> offSince = Optional.empty();
        boolean excused;

        Load(PlugNetwork network) {
            this.network = network;
            plug = network.plug(AUTO_OFF);
            begin();
        }

        private void begin() {
            line = plug.line();
            relay = LeasedRelay.start("plug", new PlugDriver(line, AUTO_OFF, PATIENCE), network.now::get);
            did = Switched.failed(Contact.ENERGISED, network.now.get(), "nobody knows");
        }

        void restart() {
            line.end();
            relay.close();
            begin();
        }

        void ask(Contact wanted) {
            if (wanted == Contact.ENERGISED) wished = network.now.get();
            did = relay.apply(wanted, LEASE);
        }

        void settle() throws InterruptedException {
            relay.settle();
        }

        boolean hasRested(Uptime now) {
            return did.contact() == Contact.RELEASED && now.since(did.since()).compareTo(APART) >= 0;
        }
    }

    private final Map<Trouble, Integer> met = new EnumMap<>(Trouble.class);
    private SplittableRandom random = new SplittableRandom(0);
    private PlugNetwork network = new PlugNetwork(random);
    private final List<Load> loads = new ArrayList<>();
    private final Deque<Trouble> deck = new ArrayDeque<>();
    private Trouble trouble = Trouble.NONE;
    private int troubleLeft = 120;
    private int wanted;
    private int starts;
    private int staysOnThroughTrouble;
    private Uptime wellSince = Uptime.ofSeconds(0);

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void no_plug_is_on_longer_than_its_own_time_after_the_last_wish_and_never_are_two_on_at_once(long seed)
            throws Exception {
        random = new SplittableRandom(seed);
        network = new PlugNetwork(random);
        loads.add(new Load(network));
        loads.add(new Load(network));
        for (int second = 0; second < SECONDS; second++) {
            List<Boolean> before = loads.stream().map(load -> load.plug.isOn()).toList();
            network.second();
            trouble(seed);
            loop();
            for (Load load : loads) load.settle();
            judge(before);
        }
        assertEquals(EnumSet.allOf(Trouble.class), met.keySet(), "not met");
        assertTrue(starts >= 4, "only " + starts + " starts");
        assertTrue(staysOnThroughTrouble > 0, "nothing was ever on while something failed");
        for (Load load : loads) load.restart();
    }

    private void trouble(long seed) {
        if (trouble != Trouble.NONE) wellSince = network.now.get();
        if (--troubleLeft > 0) return;
        network.slow(0, 0);
        if (trouble == Trouble.BROKER_AWAY) network.connect();
        loads.forEach(load -> load.plug.dead(false));
        if (deck.isEmpty()) {
            List<Trouble> all = new ArrayList<>(EnumSet.allOf(Trouble.class));
            all.remove(Trouble.NONE);
            Collections.shuffle(all, new Random(seed + troubleLeft));
            deck.addAll(all);
        }
        trouble = trouble == Trouble.NONE ? deck.remove() : Trouble.NONE;
        troubleLeft = trouble == Trouble.NONE ? 80 + random.nextInt(60) : 1 + random.nextInt(90);
        met.merge(trouble, 1, Integer::sum);
        Load one = loads.get(random.nextInt(loads.size()));
        switch (trouble) {
            case BROKER_AWAY -> network.lose();
            case PLUG_DEAD -> one.plug.dead(true);
            case SLOW -> network.slow(random.nextInt(7), random.nextInt(13));
            case PLUG_LOSES_POWER -> {
                one.excused = true;
                one.plug.restart();
            }
            case BUTTON -> {
                one.excused = true;
                // Only a person is to blame for two at once.
                if (loads.stream().noneMatch(load -> load != one && load.plug.isOn())) {
                    one.wished = network.now.get();
                    one.plug.pressed();
                }
            }
            case DAEMON_KILLED -> {
                network.will();
                loads.forEach(Load::restart);
            }
            case DAEMON_KILLED_WITHOUT_A_WILL -> loads.forEach(Load::restart);
            case LOOP_STANDS_STILL, NONE -> {}
        }
    }

    /** As the guard does: what may be on counts as on, and each start waits. */
    private void loop() {
        Uptime now = network.now.get();
        if (random.nextInt(150) == 0) wanted = random.nextInt(3);
        if (trouble == Trouble.LOOP_STANDS_STILL) return;
        boolean stands = trouble == Trouble.DAEMON_KILLED_WITHOUT_A_WILL && troubleLeft > 5;
        if (stands) return;
        for (int i = 0; i < loads.size(); i++) {
            Load load = loads.get(i);
            Load other = loads.get(1 - i);
            boolean runs = load.did.contact() == Contact.ENERGISED
                    && load.did.failure().isEmpty();
            boolean may = runs || (load.hasRested(now) && other.hasRested(now));
            load.ask(
                    wanted == i && may && other.did.contact() == Contact.RELEASED
                            ? Contact.ENERGISED
                            : Contact.RELEASED);
        }
    }

    private void judge(List<Boolean> before) {
        Uptime now = network.now.get();
        assertFalse(loads.stream().allMatch(load -> load.plug.isOn()), () -> "two at once at " + now + ", " + trouble);
        for (int i = 0; i < loads.size(); i++) {
            Load load = loads.get(i);
            boolean on = load.plug.isOn();
            Duration unwished = now.since(load.wished);
            if (on && trouble != Trouble.NONE) staysOnThroughTrouble++;
            Duration most = AUTO_OFF.plus(PlugNetwork.EXPIRES);
            assertTrue(!on || unwished.compareTo(most) <= 0, () -> "on " + unwished + " after the last wish at " + now);
            boolean well = now.since(wellSince).compareTo(WELL) > 0;
            assertTrue(
                    !on || !well || unwished.compareTo(LEASE) <= 0,
                    () -> "on " + unwished + " after the last wish, with nothing in the way, at " + now);
            if (on && !before.get(i)) {
                starts++;
                Optional<Duration> rested = load.offSince.map(now::since);
                // What a plug is told may be under way for some seconds.
                boolean enough = rested.isEmpty() || rested.get().compareTo(APART.minus(WELL)) >= 0;
                assertTrue(enough || load.excused, () -> "started after " + rested + " at " + now);
            }
            if (!on && before.get(i)) load.offSince = Optional.of(now);
            if (trouble == Trouble.NONE && troubleLeft < 20) load.excused = false;
        }
    }
}

package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.control.Rules.Timing;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever is wrong with a chamber, commissioning asks and the guard decides. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommissioningPropertyTest {
    /** A life takes as long as ten of other properties. */
    private static final long SEEDS = Math.max(5, Long.getLong("gylewarden.seeds", 1000) / 10);

    private static final Duration LONGEST = Duration.ofHours(20);
    private static final Map<Happening, Long> HAPPENED = new EnumMap<>(Happening.class);

    private enum Happening {
        COOLED,
        HEATED,
        DOUBTED_WHILE_ENERGISED,
        CHANGED_OVER,
        PASSED,
        FAILED
    }

    static LongStream seeds() {
        return LongStream.range(0, SEEDS);
    }

    private static List<Fault> fault(SplittableRandom random) {
        Side side = random.nextBoolean() ? Side.COOLING : Side.HEATING;
        List<List<Fault>> kinds = List.of(
                List.of(),
                List.of(new Fault.LoadsSwapped()),
                List.of(new Fault.LevelInverted(side)),
                List.of(new Fault.RelayDead(side)),
                List.of(new Fault.RelayWelded(side)),
                List.of(new Fault.ProbesExchanged()),
                List.of(new Fault.BothLoadsOn(side)),
                List.of(new Fault.OwnThermostat(new Temperature(12))),
                List.of(new Fault.OwnDelay(Duration.ofMinutes(6))));
        return kinds.get(random.nextInt(kinds.size()));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void commissioning_never_breaks_the_guard_and_comes_to_a_verdict(long seed) {
        var random = new SplittableRandom(seed);
        var room = new CommissionedChamber(seed + 1, seed, random.nextInt(4) > 0).with(fault(random));
        var silent = new Fault.ProbeSilent(Element.BEER_PROBE);
        long silentFrom = random.nextInt(3) == 0 ? random.nextLong(600, 7200) : Long.MAX_VALUE;
        var watch = new Watch();
        while (room.verdictSoFar().isEmpty()) {
            long second = room.chamber().seconds();
            assertTrue(second < LONGEST.toSeconds(), "no verdict");
            if (second == silentFrom) room.chamber().inject(silent);
            watch.see(room.second(), second);
        }
        happened(room.verdict().passed() ? Happening.PASSED : Happening.FAILED);
        for (int i = 0; i < 300; i++) watch.see(room.second(), room.chamber().seconds());
        assertTrue(room.wanted().isEmpty());
        for (Side side : Side.values())
            assertFalse(room.chamber().status().guard().load(side).energised(), side + " is energised after the end");
    }

    private static void happened(Happening what) {
        HAPPENED.merge(what, 1L, Long::sum);
    }

    /** What the relays may never do, by what the guard counts. */
    private static final class Watch {
        private final Map<Side, Long> released = new EnumMap<>(Side.class);
        private final Map<Side, Boolean> energised = new EnumMap<>(Side.class);

        Watch() {
            for (Side side : Side.values()) energised.put(side, false);
        }

        void see(ChamberStatus status, long second) {
            boolean cools = status.guard().cooling().energised();
            boolean heats = status.guard().heating().energised();
            assertFalse(cools && heats, "both energised at " + second);
            boolean believed = status.readings().deciding().believed().isPresent();
            if (!believed && (energised.get(Side.COOLING) || energised.get(Side.HEATING)))
                happened(Happening.DOUBTED_WHILE_ENERGISED);
            assertFalse(!believed && (cools || heats), "energised on doubt at " + second);
            see(Side.COOLING, cools, second);
            see(Side.HEATING, heats, second);
        }

        private void see(Side side, boolean now, long second) {
            boolean before = energised.put(side, now);
            if (before && !now) released.put(side, second);
            if (before || !now) return;
            happened(side == Side.COOLING ? Happening.COOLED : Happening.HEATED);
            Timing timing = Timing.defaults();
            Duration off = side == Side.COOLING ? timing.minimumOff() : Timing.HEATER_MINIMUM;
            assertTrue(second - released.getOrDefault(side, 0L) >= off.toSeconds(), side + " too early at " + second);
            if (!released.containsKey(side.other())) return;
            happened(Happening.CHANGED_OVER);
            long since = second - released.get(side.other());
            assertTrue(since >= timing.changeOver().toSeconds(), side + " too soon after the other at " + second);
        }
    }

    @AfterAll
    static void everything_has_happened() {
        System.out.println("commissioning over " + SEEDS + " seeds: " + HAPPENED);
        for (Happening happening : Happening.values())
            assertTrue(
                    HAPPENED.getOrDefault(happening, 0L) >= Math.min(5, SEEDS / 20),
                    () -> happening + " happened only " + HAPPENED.getOrDefault(happening, 0L) + " times");
    }
}

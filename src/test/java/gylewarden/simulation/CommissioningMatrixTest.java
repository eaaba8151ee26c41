package gylewarden.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.commission.Finding;
import gylewarden.commission.Verdict;
import gylewarden.control.Side;
import gylewarden.units.Kelvins;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Chambers times faults times lives: the table of docs/commissioning.md, computed anew. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommissioningMatrixTest {
    private static final int CHAMBERS = 20;
    private static final int LIVES = 3;
    private static final Path PAGE = Path.of("docs", "commissioning.md");
    private static final String HEAD = "| what is wrong | with an air probe | beer probe alone |";

    /**
     * One row.
     *
     * @param faults of a chamber that starts at a temperature
     * @param named the finding that names it
     * @param half one whose sentence names it beside another possibility, or the right side and not the cause
     */
    private record Row(
            String words,
            Function<CommissionedChamber, List<Fault>> faults,
            Optional<Predicate<Finding>> named,
            Predicate<Finding> half,
            boolean alsoBeerAlone) {
        static Row of(String words, Predicate<Finding> named, Predicate<Finding> half, Fault... faults) {
            return new Row(words, chamber -> List.of(faults), Optional.of(named), half, true);
        }

        Row withAirOnly() {
            return new Row(words, faults, named, half, false);
        }
    }

    private static List<Row> rows() {
        Predicate<Finding> never = finding -> false;
        List<Row> rows = new ArrayList<>();
        rows.add(new Row("nothing", chamber -> List.of(), Optional.empty(), never, true));
        rows.add(Row.of(
                "loads swapped",
                finding -> finding instanceof Finding.LoadsSwapped,
                finding -> finding instanceof Finding.LevelsInverted
                        || acts(Side.HEATING).test(finding),
                new Fault.LoadsSwapped()));
        for (Side side : Side.values())
            rows.add(Row.of(
                    "level inverted, " + side.name().toLowerCase(Locale.ROOT),
                    new Finding.LevelInverted(side)::equals,
                    acts(side).or(new Finding.AlwaysRuns(side)::equals),
                    new Fault.LevelInverted(side)));
        rows.add(Row.of(
                "both levels inverted",
                finding -> finding instanceof Finding.LevelsInverted,
                finding -> finding instanceof Finding.LoadsSwapped,
                new Fault.LevelInverted(Side.COOLING),
                new Fault.LevelInverted(Side.HEATING)));
        for (Side side : Side.values())
            rows.add(Row.of(
                    "the relay does nothing, " + side.name().toLowerCase(Locale.ROOT),
                    none(side),
                    never,
                    new Fault.RelayDead(side)));
        rows.add(Row.of(
                "neither relay does anything",
                finding -> finding instanceof Finding.NothingMoves,
                never,
                new Fault.RelayDead(Side.COOLING),
                new Fault.RelayDead(Side.HEATING)));
        rows.add(Row.of(
                "cooling runs always",
                new Finding.AlwaysRuns(Side.COOLING)::equals,
                none(Side.COOLING),
                new Fault.RelayWelded(Side.COOLING)));
        rows.add(Row.of(
                "both loads on the relay for cooling",
                acts(Side.COOLING),
                none(Side.HEATING),
                new Fault.BothLoadsOn(Side.COOLING)));
        rows.add(Row.of(
                "both loads on the relay for heating",
                acts(Side.HEATING),
                none(Side.COOLING),
                new Fault.BothLoadsOn(Side.HEATING)));
        rows.add(Row.of(
                        "probes exchanged",
                        finding -> finding instanceof Finding.ProbesExchanged,
                        finding -> finding instanceof Finding.BeerProbeInAir,
                        new Fault.ProbesExchanged())
                .withAirOnly());
        rows.add(Row.of(
                        "beer probe in the air",
                        finding -> finding instanceof Finding.BeerProbeInAir,
                        finding -> finding instanceof Finding.ProbesExchanged,
                        new Fault.BeerProbeFallen())
                .withAirOnly());
        rows.add(new Row(
                "own thermostat, stops 4 K below the start",
                chamber -> List.of(new Fault.OwnThermostat(chamber.start().minus(new Kelvins(4)))),
                Optional.of(finding -> finding instanceof Finding.OwnThermostat),
                none(Side.COOLING),
                false));
        for (int minutes : new int[] {3, 6, 10})
            rows.add(Row.of(
                            "own delay of " + minutes + " min",
                            delay(minutes, 2),
                            delay(minutes, 15),
                            new Fault.OwnDelay(Duration.ofMinutes(minutes)))
                    .withAirOnly());
        return rows;
    }

    private static Predicate<Finding> acts(Side side) {
        return finding -> finding instanceof Finding.ActsAsOther acts && acts.side() == side;
    }

    private static Predicate<Finding> none(Side side) {
        return finding -> finding instanceof Finding.NoEffect none && none.side() == side;
    }

    private static Predicate<Finding> delay(int minutes, int off) {
        return finding -> finding instanceof Finding.OwnDelay delay
                && Math.abs(delay.measured().toMinutes() - minutes) <= off;
    }

    /** How often, of {@link #CHAMBERS} times {@link #LIVES}. */
    private static final class Count {
        int named;
        int half;
        int other;
        int passed;

        void count(Row row, Verdict verdict) {
            List<Finding> found = verdict.findings();
            if (row.named().isEmpty()) {
                if (found.isEmpty()) named++;
                else other++;
            } else if (found.isEmpty()) passed++;
            else if (found.stream().allMatch(row.named().get())) named++;
            else if (found.stream().anyMatch(row.named().get().or(row.half()))) half++;
            else other++;
        }

        String words() {
            return named + " / " + half + " / " + other + " / " + passed;
        }
    }

    private static Count life(Row row, boolean airProbe) {
        var count = new Count();
        for (int plant = 1; plant <= CHAMBERS; plant++)
            for (int life = 1; life <= LIVES; life++) {
                var chamber = new CommissionedChamber(plant, life, airProbe);
                count.count(row, chamber.with(row.faults().apply(chamber)).verdict());
            }
        return count;
    }

    @Test
    void the_page_tells_how_often_each_fault_is_named() throws IOException {
        List<String> computed = new ArrayList<>();
        for (Row row : rows()) {
            Count air = life(row, true);
            int all = air.named + air.half + air.other + air.passed;
            assertEquals(CHAMBERS * LIVES, all);
            assertTrue(air.named + air.half >= all * 9 / 10, row.words() + " is seldom named: " + air.words());
            String alone = row.alsoBeerAlone() ? life(row, false).words() : "can't be told";
            computed.add("| " + row.words() + " | " + air.words() + " | " + alone + " |");
        }
        assertEquals(String.join("\n", computed), table());
    }

    private static String table() throws IOException {
        List<String> lines = Files.readAllLines(PAGE);
        int head = lines.indexOf(HEAD);
        assertTrue(head >= 0, "the page has no table with this head: " + HEAD);
        return String.join(
                "\n",
                lines.subList(head + 2, lines.size()).stream()
                        .takeWhile(line -> line.startsWith("|"))
                        .toList());
    }
}

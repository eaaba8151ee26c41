package gylewarden.app.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.app.config.WrongFile;
import gylewarden.control.Condition;
import gylewarden.control.Rules;
import gylewarden.journal.Event;
import gylewarden.simulation.Simulation;
import gylewarden.simulation.Summary;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Chambers in which all is well, taped probes and open doors included: nobody is to be woken by them. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class NormalLifeTest {
    private static final Path CHAMBERS = Path.of("src/test/resources/chambers");
    private static final Set<Condition> ABOUT_EFFECT = EnumSet.of(
            Condition.COOLING_WITHOUT_EFFECT,
            Condition.HEATING_WITHOUT_EFFECT,
            Condition.COOLING_MAY_BE_WELDED,
            Condition.HEATER_MAY_BE_WELDED,
            Condition.BOTH_SIDES_BUSY);

    static List<String> chambers() throws IOException {
        try (Stream<Path> folders = Files.list(CHAMBERS)) {
            return folders.filter(Files::isDirectory)
                    .map(folder -> String.valueOf(folder.getFileName()))
                    .sorted()
                    .toList();
        }
    }

    @ParameterizedTest(name = "chamber {0}")
    @MethodSource("chambers")
    void a_normal_life_raises_no_doubt_and_no_alarm_about_effect(String name) throws WrongFile {
        Simulation life = live(name);
        List<Event> alarms =
                life.events().stream().filter(NormalLifeTest::wakesSomebody).toList();
        assertEquals(List.of(), alarms);
        assertTrue(life.trace().switches().size() > 5, "hardly anything was switched: this chamber tested nothing");
    }

    @Test
    void together_they_live_a_hundred_days() throws IOException, WrongFile {
        double days = 0;
        int doors = 0;
        for (String name : chambers()) {
            String kind = name.substring(name.indexOf('-') + 1);
            days += Summary.of(live(name).trace()).simulatedDays();
            assertTrue(Files.exists(CHAMBERS.resolve(kind + ".schedule.json")), kind);
            doors += (int) Files.readAllLines(CHAMBERS.resolve(name).resolve("disturbances.csv")).stream()
                    .filter(row -> !row.endsWith(",0.0") && !row.startsWith("seconds"))
                    .count();
        }
        assertTrue(days >= 100, days + " days in sum");
        assertTrue(doors >= 100, doors + " doors opened");
    }

    private static boolean wakesSomebody(Event event) {
        return event instanceof Event.ProbeDoubted
                || (event instanceof Event.ConditionBegan began && ABOUT_EFFECT.contains(began.condition()));
    }

    private static Simulation live(String name) throws WrongFile {
        Path folder = CHAMBERS.resolve(name);
        String kind = name.substring(name.indexOf('-') + 1);
        PlantFile plant = PlantFile.read(folder.resolve("plant.toml"));
        return Simulation.run(
                plant.parameters(),
                DisturbancesFile.read(folder.resolve("disturbances.csv")),
                Rules.defaults().with(Simulation.fitted(plant.parameters().fitted())),
                ScheduleFile.read(CHAMBERS.resolve(kind + ".schedule.json")),
                Optional.empty(),
                1);
    }
}

package gylewarden.house;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import java.io.IOException;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Shows each rule a house that breaks it: the rule must name the culprits and nobody else. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CrookedHouseTest {
    private static final String ROOT = "gylewarden.crooked";
    /** The class at the head of a line of a report: the first of the crooked house's names in it. */
    private static final Pattern CULPRIT = Pattern.compile("gylewarden\\.crooked\\.([a-z]+\\.[A-Z][A-Za-z]*)");

    private static JavaClasses crooked;
    private static HouseRules rules;

    @BeforeAll
    static void importTheCrookedHouse() throws IOException {
        crooked = new ClassFileImporter().importPackages(ROOT);
        rules = new HouseRules(ROOT, Floors.ofTheHouse());
    }

    @Test
    void imports_from_above_from_later_neighbours_and_from_no_floor_at_all_are_found() {
        assertEquals(
                Set.of("units.LooksUpstairs", "schedule.AsksALaterNeighbour", "attic.Stray"),
                culprits(rules.onlyDownstairs()));
    }

    @Test
    void a_circle_is_found() {
        assertEquals(Set.of("control.ReadsTheClock", "units.LooksUpstairs"), culprits(rules.noCycles()));
    }

    @Test
    void input_and_output_on_a_pure_floor_is_found() {
        assertEquals(Set.of("control.WritesAFile"), culprits(rules.pureFloorsDoNoInputOrOutput()));
    }

    @Test
    void a_thread_on_a_pure_floor_is_found() {
        assertEquals(Set.of("control.StartsAThread"), culprits(rules.pureFloorsStartNoThread()));
    }

    @Test
    void clocks_and_unseeded_dice_on_a_pure_floor_are_found() {
        assertEquals(Set.of("control.ReadsTheClock", "control.ThrowsDice"), culprits(rules.pureFloorsReadNoClock()));
    }

    @Test
    void hardware_in_an_outer_room_is_found_and_simulated_hardware_is_the_simulations_alone() {
        assertEquals(
                Set.of("simulation.TouchesAPin", "web.TouchesARelay"), culprits(rules.outerRoomsTouchNoHardware()));
    }

    @Test
    void a_library_out_of_its_room_is_found() {
        var found = new TreeSet<String>();
        for (ArchRule rule : rules.librariesStayInTheirRooms()) found.addAll(culprits(rule));
        assertEquals(Set.of("chamber.KnowsToml"), found);
    }

    @Test
    void printing_outside_the_command_line_is_found() {
        assertEquals(Set.of("web.Prints"), culprits(rules.onlyTheCommandLinePrints()));
    }

    @Test
    void what_is_static_and_can_change_is_found() {
        List<String> details = rules.nothingStaticChanges()
                .evaluate(crooked)
                .getFailureReport()
                .getDetails();
        assertEquals(Set.of("control.Remembers"), culprits(rules.nothingStaticChanges()));
        assertEquals(3, details.size(), () -> String.join("\n", details));
    }

    private static Set<String> culprits(ArchRule rule) {
        var names = new TreeSet<String>();
        for (String detail : rule.evaluate(crooked).getFailureReport().getDetails()) {
            for (String line : detail.lines().toList()) {
                var found = CULPRIT.matcher(line);
                boolean heading = line.contains("Slice ") || line.contains("Cycle detected");
                if (!heading && found.find()) names.add(found.group(1));
            }
        }
        return names;
    }
}

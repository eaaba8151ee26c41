package gylewarden.house;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Holds the house to docs/architecture.md. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class FloorsTest {
    private static final Path SOURCES = Path.of("src", "main", "java");

    private static JavaClasses house;
    private static HouseRules rules;

    @BeforeAll
    static void importTheHouse() throws IOException {
        house = new ClassFileImporter().importPath(Path.of("target", "classes"));
        rules = new HouseRules("gylewarden", Floors.ofTheHouse());
    }

    @Test
    void the_plan_names_every_floor_in_its_order() throws IOException {
        Floors floors = Floors.ofTheHouse();
        assertEquals(List.of("app"), floors.on(5));
        assertEquals(List.of("web", "mqtt", "message", "simulation"), floors.on(4));
        assertEquals(List.of("chamber"), floors.on(3));
        assertEquals(List.of("probe", "relay", "store", "link"), floors.on(2));
        assertEquals(
                List.of(
                        "brewing",
                        "schedule",
                        "batch",
                        "document",
                        "control",
                        "commission",
                        "alarm",
                        "journal",
                        "post",
                        "plant"),
                floors.on(Floors.PURE));
        assertEquals(List.of("units"), floors.on(0));
    }

    /** Without this, a mistaken path would let every rule below pass on nothing. */
    @Test
    void every_source_file_of_the_house_is_looked_at() throws IOException {
        Set<String> seen = house.stream().map(JavaClass::getName).collect(Collectors.toSet());
        List<String> written = sources().stream()
                .filter(file -> !file.endsWith("package-info.java"))
                .map(file -> SOURCES.relativize(file).toString())
                .map(file -> file.substring(0, file.length() - ".java".length()).replace('/', '.'))
                .toList();
        assertTrue(written.size() >= 12, "only " + written.size() + " source files found");
        assertEquals(
                List.of(), written.stream().filter(name -> !seen.contains(name)).toList());
    }

    @Test
    void a_package_imports_only_from_floors_below_its_own() {
        rules.onlyDownstairs().check(house);
    }

    @Test
    void no_packages_import_each_other_in_a_circle() {
        rules.noCycles().check(house);
    }

    @Test
    void the_pure_floors_do_no_input_or_output_and_do_not_log() {
        rules.pureFloorsDoNoInputOrOutput().check(house);
    }

    @Test
    void the_pure_floors_start_no_thread() {
        rules.pureFloorsStartNoThread().check(house);
    }

    @Test
    void the_pure_floors_read_no_clock_and_throw_no_dice_without_a_seed() {
        rules.pureFloorsReadNoClock().check(house);
    }

    @Test
    void page_broker_and_messages_touch_no_hardware_and_the_simulation_only_simulated_hardware() {
        rules.outerRoomsTouchNoHardware().check(house);
    }

    @Test
    void each_library_is_known_only_where_it_is_needed() {
        rules.librariesStayInTheirRooms().forEach(rule -> rule.check(house));
    }

    @Test
    void only_the_command_line_prints() {
        rules.onlyTheCommandLinePrints().check(house);
    }

    @Test
    void nothing_that_is_static_can_change() {
        rules.nothingStaticChanges().check(house);
    }

    @Test
    void each_package_says_in_three_sentences_what_it_is_and_where_to_start() throws IOException {
        Set<Path> packages = sources().stream().map(Path::getParent).collect(Collectors.toSet());
        for (Path folder : packages) {
            Path info = folder.resolve("package-info.java");
            assertTrue(Files.exists(info), folder + " has no package-info.java");
            String text =
                    Files.readString(info).replaceAll("(?m)^ \\*(?!/) ?", "").replaceAll("\\s+", " ");
            assertTrue(text.startsWith("/**"), info + " has no Javadoc");
            String javadoc = text.substring(0, Math.max(0, text.indexOf("*/")));
            assertTrue(javadoc.split("\\. ", -1).length > 3, info + " says less than three sentences: " + javadoc);
            assertTrue(javadoc.contains("Start at"), info + " does not say where to start reading: " + javadoc);
        }
    }

    private static List<Path> sources() throws IOException {
        try (var files = Files.walk(SOURCES)) {
            return files.filter(file -> file.toString().endsWith(".java")).toList();
        }
    }
}

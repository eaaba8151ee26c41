package gylewarden.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.schedule.Course;
import gylewarden.schedule.Schedule;
import gylewarden.units.Temperature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Runs what docs/schedule.md promises. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ScheduleDocsTest {
    private static final Pattern EXAMPLE = Pattern.compile("```json\\n(.*?)```", Pattern.DOTALL);
    private static final Pattern ROW = Pattern.compile("^\\| (P\\S+) \\| (\\S+) \\|$", Pattern.MULTILINE);

    private static String page() throws IOException {
        return Files.readString(Path.of("docs", "schedule.md"));
    }

    private static List<Schedule> examples() throws IOException {
        return EXAMPLE.matcher(page())
                .results()
                .map(example -> ScheduleDocument.read(example.group(1))
                        .fold(ScheduleDocument.Read.Understood::schedule, refused -> {
                            throw new AssertionError(refused.mistakes().toString());
                        }))
                .toList();
    }

    @Test
    void every_example_is_a_schedule() throws IOException {
        assertEquals(2, examples().size());
    }

    @Test
    void the_first_example_has_the_setpoints_of_its_table() throws IOException {
        Course course = Course.start(examples().get(0), Optional.empty());
        List<MatchResult> rows = ROW.matcher(page()).results().toList();
        assertEquals(8, rows.size());
        for (MatchResult row : rows)
            assertEquals(
                    Optional.of(new Temperature(Double.parseDouble(row.group(2)))),
                    course.setpointAhead(Duration.parse(row.group(1))),
                    row.group());
    }

    @Test
    void the_second_example_runs_to_its_end_where_nobody_answers() throws IOException {
        Course course = Course.start(examples().get(1).whereNobodyAnswers(), Optional.of(new Temperature(18)));
        boolean finished = false;
        for (int hour = 0; hour < 60 * 24 && !finished; hour++) {
            course = course.advance(Duration.ofHours(1), course.setpoint()).course();
            finished = course.finished();
        }
        assertTrue(finished, "still in step " + course.stepIndex());
    }
}

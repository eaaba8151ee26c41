package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.commission.Commissioned;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CommissionedFileTest {
    private static final Commissioned FAILED = new Commissioned(
            Instant.parse("2026-11-25T12:00:00Z"),
            List.of("The loads are swapped."),
            Map.of("cooling", "gpio line 17 active low", "beer_probe", "one-wire 28-0316a2791001"));

    @TempDir
    Path data;

    @Test
    void what_is_written_is_read_again() throws IOException {
        var file = new CommissionedFile(data, "garage");
        file.write(FAILED);
        assertEquals(Optional.of(FAILED), file.read());
        assertFalse(FAILED.passed());
        assertEquals(data.resolve("commissioned-garage.json"), file.path());
    }

    @Test
    void a_chamber_without_a_file_was_never_commissioned() throws IOException {
        assertEquals(Optional.empty(), new CommissionedFile(data, "garage").read());
    }

    @Test
    void a_file_that_makes_no_sense_is_told() throws IOException {
        var file = new CommissionedFile(data, "garage");
        for (String broken :
                List.of("", "{", "[]", "{\"at\": \"soon\", \"findings\": [], \"wiring\": {}}", "{\"at\": 5}")) {
            Files.writeString(file.path(), broken);
            IOException told = assertThrows(IOException.class, file::read, broken);
            assertTrue(told.getMessage().startsWith(file.path() + " can't be understood"), told.getMessage());
            assertTrue(told.getMessage().endsWith("Commission the chamber anew."), told.getMessage());
        }
    }
}

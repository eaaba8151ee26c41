package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class StateFolderTest {
    @TempDir
    Path folder;

    @Test
    void without_a_service_manager_any_data_folder_is_right() {
        assertEquals(Optional.empty(), StateFolder.warning(Map.of(), folder));
    }

    @Test
    void the_services_own_folder_is_right_also_behind_a_link_or_written_in_another_way() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link"), Files.createDirectory(folder.resolve("data")));
        for (Path same : new Path[] {folder.resolve("data"), link, folder.resolve("data/../data")})
            assertEquals(
                    Optional.empty(),
                    StateFolder.warning(Map.of("STATE_DIRECTORY", link.toString()), same),
                    same.toString());
    }

    @Test
    void another_folder_is_told_with_what_to_do() {
        assertEquals(
                Optional.of(
                        "The data folder is /srv/brew, but the service's is /var/lib/gylewarden: after a crash the stop"
                                + " hook looks for the list of relays there and releases none of these. Let [store] directory name"
                                + " /var/lib/gylewarden, or let ExecStopPost in the unit name /srv/brew/release-list."),
                StateFolder.warning(Map.of("STATE_DIRECTORY", "/var/lib/gylewarden"), Path.of("/srv/brew")));
    }
}

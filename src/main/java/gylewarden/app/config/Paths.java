package gylewarden.app.config;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;

/** Paths as people write them: relative to the folder of the file in which they stand. */
final class Paths {
    private Paths() {}

    static Optional<Path> read(Table table, String key, Path folder) {
        return table.text(key).flatMap(text -> {
            try {
                return Optional.of(folder.resolve(text).normalize());
            } catch (InvalidPathException noPath) {
                table.mistake(key, "no path of a file");
                return Optional.empty();
            }
        });
    }
}

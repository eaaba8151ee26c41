package gylewarden.app.station;

import gylewarden.batch.Change.Listed;
import gylewarden.web.House;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What was asked of chambers that the config does not name, such as one that was renamed: nothing follows it, so it has to be told. */
public final class Strays {
    private static final Pattern NAME = Pattern.compile("chamber-([a-z0-9-]{1,32})\\.json");

    private Strays() {}

    /**
     * The small files of other chambers, by the ids of those.
     *
     * @throws IOException if the folder can't be read; one that is not there has none
     */
    public static Map<String, Path> files(Path data, Collection<String> chambers) throws IOException {
        Map<String, Path> found = new TreeMap<>();
        try (DirectoryStream<Path> all = Files.newDirectoryStream(data)) {
            for (Path file : all) {
                Matcher name = NAME.matcher(file.getFileName().toString());
                if (name.matches() && !chambers.contains(name.group(1))) found.put(name.group(1), file);
            }
        } catch (NoSuchFileException | NotDirectoryException nothing) {
            return Map.of();
        }
        return found;
    }

    /** For a person, who alone can say what it was. */
    public static String sentence(String chamber, Path file) {
        return file + " holds what was asked of a chamber " + chamber
                + ", which the config does not name: nothing follows"
                + " it. If that chamber was renamed, give it its old id again and change its name only; else the file can be"
                + " deleted.";
    }

    /** Batches come first: beer may stand there. */
    static List<House.Stray> of(List<Listed> running, Map<String, Path> files, Collection<String> chambers) {
        List<House.Stray> strays = new ArrayList<>();
        for (Listed listed : running) {
            String chamber = listed.batch().chamber();
            if (!chambers.contains(chamber))
                strays.add(new House.Stray(
                        chamber,
                        Optional.of(listed.batch().id()),
                        "Batch \"" + listed.batch().name() + "\" stands in a chamber " + chamber
                                + ", which the config does not name: nothing cools or heats it. Move it to a chamber of the"
                                + " config, or end it."));
        }
        files.forEach(
                (chamber, file) -> strays.add(new House.Stray(chamber, Optional.empty(), sentence(chamber, file))));
        return strays;
    }
}

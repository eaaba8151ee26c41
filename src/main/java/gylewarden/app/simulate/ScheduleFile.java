package gylewarden.app.simulate;

import gylewarden.app.config.Mistake;
import gylewarden.app.config.WrongFile;
import gylewarden.document.ScheduleDocument;
import gylewarden.schedule.Schedule;
import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Reads a schedule from its JSON file. */
final class ScheduleFile {
    private ScheduleFile() {}

    static Schedule read(Path path) throws WrongFile {
        Path fileName = path.getFileName();
        String name = fileName == null ? path.toString() : fileName.toString();
        ScheduleDocument.Read read = ScheduleDocument.read(text(path, name));
        Optional<Schedule> schedule =
                read.fold(understood -> Optional.of(understood.schedule()), refused -> Optional.empty());
        List<Mistake> mistakes = read.fold(
                understood -> List.of(),
                refused -> refused.mistakes().stream()
                        .map(mistake -> new Mistake(OptionalInt.empty(), mistake.field(), mistake.message()))
                        .toList());
        if (schedule.isEmpty()) throw new WrongFile(name, mistakes);
        return schedule.get();
    }

    private static String text(Path path, String name) throws WrongFile {
        try {
            return Files.readString(path);
        } catch (NoSuchFileException missing) {
            throw unreadable(name, "there is no such file: " + path.toAbsolutePath());
        } catch (MalformedInputException notText) {
            throw unreadable(name, "is not UTF-8 text: is this the right file?");
        } catch (IOException failed) {
            throw unreadable(name, "cannot be read: " + failed.getMessage());
        }
    }

    private static WrongFile unreadable(String name, String advice) {
        return new WrongFile(name, List.of(new Mistake(OptionalInt.empty(), "", advice)));
    }
}

package gylewarden.relay;

import gylewarden.control.Contact;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * A relay behind a file, such as a line of the kernel's or a bridge to other hardware: opened, overwritten with
 * {@code 1} or {@code 0} and a newline, closed. Never renamed, for the reader may hold the file open, and on a full disk
 * overwriting two bytes still works where a new file would not.
 *
 * @param activeLow {@code 0} energises
 */
public record FileDriver(Path path, boolean activeLow) implements RelayDriver {
    @Override
    public void write(Contact contact) throws IOException {
        Path folder = path.toAbsolutePath().getParent();
        byte[] bytes = (text(contact) + "\n").getBytes(StandardCharsets.US_ASCII);
        try {
            if (!Files.isDirectory(folder)) Files.createDirectories(folder);
            // Cut after writing and not before: there is no moment at which the file is empty.
            try (var file = FileChannel.open(path, StandardOpenOption.WRITE, StandardOpenOption.CREATE)) {
                file.write(ByteBuffer.wrap(bytes));
                if (file.size() > bytes.length) file.truncate(bytes.length);
            }
        } catch (IOException e) {
            throw new IOException("could not write " + path + ": " + reason(e), e);
        }
    }

    /** What the file holds when the load is released, for the stop hook. */
    public String released() {
        return text(Contact.RELEASED);
    }

    private String text(Contact contact) {
        return (contact == Contact.ENERGISED) == activeLow ? "0" : "1";
    }

    static String reason(IOException e) {
        if (e instanceof AccessDeniedException) return "permission denied";
        if (e instanceof NoSuchFileException) return "no such file or folder";
        String words = Optional.ofNullable(e.getMessage()).orElse(e.toString());
        return words.endsWith("Is a directory") ? "it is a folder" : words;
    }
}

package gylewarden.process;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/** The database of a data folder, looked at by another program than the daemon. */
final class SqlFile implements AutoCloseable {
    static final String FILE = "gylewarden.db";

    private final Connection connection;

    private SqlFile(Path file) throws SQLException {
        connection = DriverManager.getConnection("jdbc:sqlite:" + file);
    }

    static SqlFile of(Path data) throws SQLException {
        return new SqlFile(data.resolve(FILE));
    }

    /** A copy with its log, as a kill has left them; looking at the original itself would mend it. */
    static SqlFile copied(Path data, Path folder) throws IOException, SQLException {
        Files.createDirectories(folder);
        for (String suffix : List.of("", "-wal"))
            if (Files.exists(data.resolve(FILE + suffix)))
                Files.copy(data.resolve(FILE + suffix), folder.resolve(FILE + suffix));
        return of(folder);
    }

    List<String> texts(String query) throws SQLException {
        List<String> texts = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(query)) {
            while (rows.next()) texts.add(rows.getString(1));
        }
        return texts;
    }

    long number(String query) throws SQLException {
        return Long.parseLong(texts(query).get(0));
    }

    void execute(String statement) throws SQLException {
        try (Statement executing = connection.createStatement()) {
            executing.execute(statement);
        }
    }

    @Override
    public void close() throws SQLException {
        connection.close();
    }
}

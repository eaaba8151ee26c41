package gylewarden.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * The versions of the record's tables, and the way from each to the next. Forward only: {@code schema-1.sql} makes the
 * first, a {@code schema-N.sql} turns N − 1 into N.
 */
final class Schema {
    static final int VERSION = 2;
    /** Stands in the file's header (PRAGMA application_id), so that no other program's database is taken for ours. */
    static final int APPLICATION = 0x47796c65;

    private Schema() {}

    /** Brings a database that is ours, or empty, to {@link #VERSION}; each step whole or not at all. */
    static void migrate(Connection connection) throws SQLException {
        int from = number(connection, "PRAGMA user_version");
        if (from == VERSION) return;
        for (int version = from + 1; version <= VERSION; version++) {
            execute(
                    connection,
                    "BEGIN IMMEDIATE;\n" + script(version) + "\nPRAGMA application_id = " + APPLICATION
                            + ";\nPRAGMA user_version = " + version + ";\nCOMMIT;");
        }
    }

    static boolean isEmpty(Connection connection) throws SQLException {
        return number(connection, "SELECT count(*) FROM sqlite_schema") == 0;
    }

    static int number(Connection connection, String query) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(query)) {
            return row.next() ? row.getInt(1) : 0;
        }
    }

    static void execute(Connection connection, String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.executeUpdate(sql);
        }
    }

    /** A jar without its own schema is our bug, not the disk's. */
    private static String script(int version) {
        String name = "schema-" + version + ".sql";
        try (InputStream script = Schema.class.getResourceAsStream(name)) {
            if (script == null) throw new IllegalStateException("the jar lacks " + name);
            return new String(script.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

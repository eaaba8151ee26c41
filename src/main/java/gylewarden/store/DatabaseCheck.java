package gylewarden.store;

import gylewarden.store.DatabaseFile.Header;
import java.io.IOException;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Optional;

/** Looks at a database before it is written to: whose it is, of which version, and whether it is whole. Changes nothing in it. */
record DatabaseCheck(DatabaseFile file) {
    /**
     * A larger file is looked at where it holds what people typed; the years of minutes in it would keep a slow card busy for
     * minutes at each start. Damage there is found when it is met.
     */
    private static final long WHOLE_UP_TO_BYTES = 64L << 20;

    private static final List<String> OF_PEOPLE =
            List.of("batch", "schedule_revision", "mandate", "setting", "name", "alarm", "letter");
    private static final String SOUND = "ok";

    /**
     * Whether it has to be set aside.
     *
     * @param whole whether to look at its inside, too
     * @throws RecordFailed if it is of a newer version or of another program, or can't be looked at
     */
    boolean isDamaged(boolean whole) throws RecordFailed, IOException {
        if (file.size() == 0) return file.hasLog(); // nothing yet, or the log of what has been cut off
        Optional<Header> header = file.header();
        if (header.isEmpty()) return true;
        if (!file.hasLog()) refuseNewer(header.get());
        try (Connection connection = Database.readerConfig().createConnection("jdbc:sqlite:" + file.path())) {
            var inside = new Header(
                    Schema.number(connection, "PRAGMA user_version"),
                    Schema.number(connection, "PRAGMA application_id"));
            refuseNewer(inside);
            boolean ours = inside.application() == Schema.APPLICATION;
            if (!ours && !Schema.isEmpty(connection)) throw new RecordFailed(Trouble.foreign(file.path()));
            return whole && !isWhole(connection);
        } catch (SQLException e) {
            Trouble trouble = Trouble.of(e, file.path());
            if (trouble.kind() == Trouble.Kind.DAMAGED) return true;
            throw new RecordFailed(trouble, e);
        }
    }

    private void refuseNewer(Header header) throws RecordFailed {
        if (header.application() == Schema.APPLICATION && header.version() > Schema.VERSION)
            throw new RecordFailed(Trouble.newer(file.path(), header.version()));
    }

    private boolean isWhole(Connection connection) throws SQLException, IOException {
        if (file.size() <= WHOLE_UP_TO_BYTES) return says(connection, "PRAGMA quick_check(1)");
        for (String table : OF_PEOPLE)
            if (isThere(connection, table) && !says(connection, "PRAGMA quick_check(" + table + ")")) return false;
        return true;
    }

    /** An earlier version has fewer. */
    private static boolean isThere(Connection connection, String table) throws SQLException {
        return Schema.number(connection, "SELECT count(*) FROM sqlite_schema WHERE name = '" + table + "'") == 1;
    }

    private static boolean says(Connection connection, String pragma) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(pragma)) {
            return row.next() && SOUND.equals(row.getString(1));
        }
    }
}

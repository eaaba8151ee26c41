package gylewarden.web;

import gylewarden.store.RecordFailed;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Sends a long text as fast as the client takes it; what it does not take is not even read from the record. */
final class TableSource implements Outflow.Source {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private final Chronicle.Pieces pieces;
    private boolean over;
    private Optional<Outflow> outflow = Optional.empty();

    TableSource(Chronicle.Pieces pieces) {
        this.pieces = pieces;
    }

    @Override
    public void opened(Outflow opened) {
        outflow = Optional.of(opened);
    }

    @Override
    public Optional<byte[]> next() {
        if (over) return Optional.empty();
        try {
            Optional<byte[]> piece = pieces.next().map(text -> text.getBytes(StandardCharsets.UTF_8));
            over = piece.isEmpty();
            return piece;
        } catch (RecordFailed e) {
            over = true;
            LOG.warn("A table of readings was cut short: {}", e.trouble().sentence());
            outflow.ifPresent(Outflow::breakOff);
            return Optional.empty();
        }
    }

    @Override
    public boolean ended() {
        return over;
    }
}

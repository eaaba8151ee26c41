package gylewarden.web;

import jakarta.servlet.ServletOutputStream;
import jakarta.servlet.WriteListener;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;

/**
 * Carries bytes to one client as fast as it takes them. No thread ever waits for it: what can't be written now is written
 * when the connection says so.
 */
final class Outflow implements WriteListener {
    /** Where the bytes come from. Called by one thread at a time. */
    interface Source {
        /** The next piece; empty if there is none now. */
        Optional<byte[]> next();

        /** Whether nothing will come after what {@link #next} still has. */
        boolean ended();

        /** @param outflow is to be {@link Outflow#wake woken} when there is something again, and may be ended */
        default void opened(Outflow outflow) {}

        /** The client has all of it, or has gone. */
        default void closed() {}
    }

    /** All of it at once. */
    static final class Once implements Source {
        private final byte[] bytes;
        private boolean taken;

        Once(byte[] bytes) {
            this.bytes = bytes;
        }

        byte[] bytes() {
            return bytes;
        }

        @Override
        public Optional<byte[]> next() {
            if (taken || bytes.length == 0) return Optional.empty();
            taken = true;
            return Optional.of(bytes);
        }

        @Override
        public boolean ended() {
            return taken || bytes.length == 0;
        }
    }

    private final ServletOutputStream out;
    private final Source source;
    private final Runnable cut;
    private final CompletableFuture<Void> done = new CompletableFuture<>();
    private boolean open;
    private boolean unflushed;

    private Outflow(ServletOutputStream out, Source source, Runnable cut) {
        this.out = out;
        this.source = source;
        this.cut = cut;
    }

    /**
     * To be called once the request is asynchronous. The future ends, always well, when the client has all or is gone.
     *
     * @param cut closes the connection, so that a client sees that it has not got all
     */
    static CompletableFuture<Void> begin(ServletOutputStream out, Source source, Runnable cut) {
        var outflow = new Outflow(out, source, cut);
        source.opened(outflow);
        out.setWriteListener(outflow);
        return outflow.done;
    }

    @Override
    public void onWritePossible() {
        synchronized (this) {
            open = true;
        }
        wake();
    }

    @Override
    public void onError(Throwable gone) {
        end();
    }

    /** There is something to write. Returns at once. */
    void wake() {
        if (pump()) end();
    }

    private void end() {
        if (done.complete(null)) source.closed();
    }

    /** Closes the connection, whatever the client has not taken. */
    void breakOff() {
        if (done.isDone()) return;
        cut.run();
        end();
    }

    /** Writes what there is; true at the end. */
    private synchronized boolean pump() {
        if (!open || done.isDone()) return false;
        try {
            while (out.isReady()) {
                Optional<byte[]> piece = source.next();
                if (piece.isPresent()) {
                    out.write(piece.get());
                    unflushed = true;
                } else if (source.ended()) {
                    return true;
                } else if (unflushed) {
                    unflushed = false;
                    out.flush();
                } else {
                    return false;
                }
            }
            return false;
        } catch (IOException gone) {
            return true;
        }
    }
}

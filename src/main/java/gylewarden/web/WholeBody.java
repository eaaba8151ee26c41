package gylewarden.web;

import java.io.ByteArrayOutputStream;
import java.util.function.Consumer;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.util.Callback;

/**
 * Collects a request's body as it comes, by callbacks: a client that sends a byte a minute costs a connection, but no
 * thread. What has come is copied, so that many small pieces hold no more memory than one large one.
 */
final class WholeBody implements Runnable {
    /** What is done with a whole body. */
    interface Then {
        boolean handle(byte[] body) throws Exception;
    }

    private final Request request;
    private final Then then;
    private final Consumer<Problem> refuse;
    private final Callback callback;
    private final ByteArrayOutputStream collected = new ByteArrayOutputStream();

    WholeBody(Request request, Then then, Consumer<Problem> refuse, Callback callback) {
        this.request = request;
        this.then = then;
        this.refuse = refuse;
        this.callback = callback;
    }

    @Override
    public void run() {
        while (true) {
            Content.Chunk chunk = request.read();
            if (chunk == null) {
                request.demand(this);
                return;
            }
            if (Content.Chunk.isFailure(chunk)) {
                callback.failed(chunk.getFailure());
                return;
            }
            byte[] piece = new byte[chunk.remaining()];
            chunk.getByteBuffer().get(piece);
            boolean last = chunk.isLast();
            chunk.release();
            if (collected.size() + piece.length > Door.LONGEST_BODY) {
                refuse.accept(Door.tooLarge());
                return;
            }
            collected.writeBytes(piece);
            if (last) {
                handOn();
                return;
            }
        }
    }

    private void handOn() {
        try {
            if (!then.handle(collected.toByteArray())) callback.failed(new IllegalStateException("nobody answers"));
        } catch (Exception e) {
            callback.failed(e);
        }
    }
}

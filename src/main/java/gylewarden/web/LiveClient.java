package gylewarden.web;

import gylewarden.journal.Scale;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.function.Consumer;

/** One live connection and what it has not taken yet, which is bounded: beyond that, the connection is ended. */
final class LiveClient implements Outflow.Source {
    /** Some minutes of everything that can happen. */
    static final int MOST_WAITING = 400;

    private final Consumer<LiveClient> left;
    private final Scale scale;
    private final Deque<byte[]> waiting = new ArrayDeque<>();
    private Optional<Outflow> outflow = Optional.empty();
    private boolean over;

    LiveClient(Consumer<LiveClient> left, Scale scale) {
        this.left = left;
        this.scale = scale;
    }

    /** Returns at once. The client gets it when it is next {@link #wake woken}. */
    synchronized void give(LiveFrame frame) {
        if (over) return;
        if (waiting.size() >= MOST_WAITING) {
            over = true;
            waiting.clear();
            return;
        }
        waiting.add(frame.bytes(scale));
    }

    /** Writes what the client takes, or ends the connection of one that takes nothing. Returns at once. */
    void wake() {
        Optional<Outflow> flow;
        boolean dropped;
        synchronized (this) {
            flow = outflow;
            dropped = over;
        }
        if (dropped) end();
        else flow.ifPresent(Outflow::wake);
    }

    void end() {
        Optional<Outflow> flow;
        synchronized (this) {
            over = true;
            flow = outflow;
        }
        flow.ifPresent(Outflow::breakOff);
        left.accept(this);
    }

    @Override
    public synchronized void opened(Outflow opened) {
        outflow = Optional.of(opened);
    }

    @Override
    public synchronized Optional<byte[]> next() {
        return Optional.ofNullable(waiting.poll());
    }

    @Override
    public synchronized boolean ended() {
        return over;
    }

    @Override
    public void closed() {
        left.accept(this);
    }
}

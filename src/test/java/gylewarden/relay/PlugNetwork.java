package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;

/** A broker and plugs on virtual time, of which each can fail. Words keep their order, as over one connection (MQTT 5.0, 4.6). */
final class PlugNetwork {
    /** What the broker has not handed on by then it never does. */
    static final Duration EXPIRES = Duration.ofSeconds(4);

    final AtomicReference<Uptime> now = new AtomicReference<>(Uptime.ofSeconds(0));
    private final SplittableRandom random;
    private final List<Plug> plugs = new ArrayList<>();
    private Optional<Uptime> connection = Optional.of(Uptime.ofSeconds(0));
    private int slowestWord;
    private int slowestAnswer;

    PlugNetwork(SplittableRandom random) {
        this.random = random;
    }

    private record Word(Contact contact, Uptime sent, Uptime arrives) {}

    /** Its own timer counts from each "on"; it says what it does after each word, and when it changes by itself. */
    final class Plug {
        private final Duration autoOff;
        private final Deque<Word> told = new ArrayDeque<>();
        private final Deque<Word> says = new ArrayDeque<>();
        private Optional<Line> listener = Optional.empty();
        private Optional<Uptime> onUntil = Optional.empty();
        private boolean dead;
        int lateAnswers;
        int expired;

        private Plug(Duration autoOff) {
            this.autoOff = autoOff;
        }

        boolean isOn() {
            synchronized (PlugNetwork.this) {
                return onUntil.isPresent();
            }
        }

        /** Can't hear and can't speak; its timer goes on. */
        void dead(boolean gone) {
            synchronized (PlugNetwork.this) {
                dead = gone;
                if (gone) told.clear();
            }
        }

        /** Power was away: off, and it says so. */
        void restart() {
            synchronized (PlugNetwork.this) {
                onUntil = Optional.empty();
                say(Contact.RELEASED);
            }
        }

        /** Its button. */
        void pressed() {
            synchronized (PlugNetwork.this) {
                become(onUntil.isPresent() ? Contact.RELEASED : Contact.ENERGISED);
            }
        }

        private void become(Contact contact) {
            onUntil = contact == Contact.ENERGISED ? Optional.of(now.get().plus(autoOff)) : Optional.empty();
            say(contact);
        }

        private void say(Contact contact) {
            if (dead || connection.isEmpty()) return;
            says.add(new Word(contact, now.get(), arrival(says, slowestAnswer)));
        }

        private void look() {
            if (onUntil.filter(until -> !until.isAfter(now.get())).isPresent()) become(Contact.RELEASED);
            while (!told.isEmpty() && !told.peek().arrives().isAfter(now.get())) {
                Word word = told.remove();
                boolean old = now.get().since(word.sent()).compareTo(EXPIRES) > 0;
                if (old && word.contact() == Contact.ENERGISED) expired++;
                else if (!dead) become(word.contact());
            }
            while (!says.isEmpty() && !says.peek().arrives().isAfter(now.get())) {
                Word word = says.remove();
                if (word.sent().isBefore(now.get())) lateAnswers++;
                listener.ifPresent(line -> line.ear.accept(word.contact()));
            }
        }

        /** The way to it in one life of a daemon, which ends with that life. */
        Line line() {
            var line = new Line(this);
            synchronized (PlugNetwork.this) {
                listener = Optional.of(line);
            }
            return line;
        }
    }

    final class Line implements PlugLine {
        private final Plug plug;
        private Consumer<Contact> ear = nobody -> {};
        private boolean ended;

        private Line(Plug plug) {
            this.plug = plug;
        }

        @Override
        public void listen(Consumer<Contact> heard) {
            ear = heard;
        }

        @Override
        public Optional<Uptime> connection() {
            synchronized (PlugNetwork.this) {
                return ended ? Optional.of(Uptime.ofSeconds(0)) : connection;
            }
        }

        @Override
        public Optional<String> trouble() {
            return Optional.empty();
        }

        @Override
        public void say(Contact contact) throws IOException {
            synchronized (PlugNetwork.this) {
                if (ended) {
                    ear.accept(contact);
                    return;
                }
                if (connection.isEmpty()) throw new IOException("the broker is away");
                plug.told.add(new Word(contact, now.get(), arrival(plug.told, slowestWord)));
                plug.look();
            }
        }

        /** Its daemon is dead: what its thread still says reaches nobody, and it believes that all is well. */
        void end() {
            synchronized (PlugNetwork.this) {
                ended = true;
            }
        }
    }

    private Uptime arrival(Deque<Word> before, int slowest) {
        Uptime earliest = now.get().plus(Duration.ofSeconds(slowest == 0 ? 0 : random.nextInt(slowest + 1)));
        return before.isEmpty() || !before.getLast().arrives().isAfter(earliest)
                ? earliest
                : before.getLast().arrives();
    }

    synchronized Plug plug(Duration autoOff) {
        var plug = new Plug(autoOff);
        plugs.add(plug);
        return plug;
    }

    /** Words and answers take up to so many seconds. */
    synchronized void slow(int word, int answer) {
        slowestWord = word;
        slowestAnswer = answer;
    }

    /** Of what was under way to a plug, some arrives all the same. */
    synchronized void lose() {
        connection = Optional.empty();
        for (Plug plug : plugs) {
            if (random.nextBoolean()) plug.told.clear();
            plug.says.clear();
        }
    }

    synchronized void connect() {
        connection = Optional.of(now.get());
    }

    /** What the broker says for a daemon that has died. */
    synchronized void will() {
        for (Plug plug : plugs)
            if (connection.isPresent())
                plug.told.add(new Word(Contact.RELEASED, now.get(), arrival(plug.told, slowestWord)));
    }

    synchronized void second() {
        now.updateAndGet(moment -> moment.plus(Duration.ofSeconds(1)));
        plugs.forEach(Plug::look);
    }
}

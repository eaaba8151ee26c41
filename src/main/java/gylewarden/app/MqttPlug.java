package gylewarden.app;

import gylewarden.app.config.RelayConfig;
import gylewarden.control.Contact;
import gylewarden.link.Delivery;
import gylewarden.link.Link;
import gylewarden.link.LinkState;
import gylewarden.link.Message;
import gylewarden.link.Message.Quality;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;

/** A plug behind the broker. What it is told is never kept there, and goes at most once. */
record MqttPlug(Link link, RelayConfig.Plug plug) implements PlugProof.Line {
    /** What the broker has not handed to the plug within this it never does: below any lease. */
    static final Duration ON_EXPIRES = Duration.ofSeconds(4);

    private static final long SENT_WITHIN_MILLIS = 1_000;

    /** What the broker had kept says nothing about now. */
    @Override
    public void listen(Consumer<Contact> heard) {
        link.subscribe(plug.stateTopic(), said -> {
            if (!said.stored()) contact(said.text()).ifPresent(heard);
        });
    }

    private Optional<Contact> contact(String text) {
        if (text.strip().equals(plug.on().strip())) return Optional.of(Contact.ENERGISED);
        return text.strip().equals(plug.off().strip()) ? Optional.of(Contact.RELEASED) : Optional.empty();
    }

    /** Ours comes back from the broker, too, so "on" says nothing; nor does what is empty, which only ends what was kept. */
    @Override
    public void overhear(Runnable told) {
        link.subscribe(plug.topic(), word -> {
            String text = word.text().strip();
            if (!word.stored() && !text.isEmpty() && !text.equals(plug.on().strip())) told.run();
        });
    }

    @Override
    public Optional<String> trouble() {
        return link.state().trouble();
    }

    @Override
    public Optional<Uptime> connection() {
        LinkState state = link.state();
        return state.isConnected() ? Optional.of(state.since()) : Optional.empty();
    }

    /** Before "off", and so before any "on" after it, the broker forgets what somebody has left there for the plug: it would be told that at each connection. */
    @Override
    public void say(Contact contact) throws IOException {
        if (contact == Contact.RELEASED)
            send(new Message(plug.topic(), "", Quality.AT_MOST_ONCE, true, Optional.empty()));
        send(
                contact == Contact.ENERGISED
                        ? new Message(plug.topic(), plug.on(), Quality.AT_MOST_ONCE, false, Optional.of(ON_EXPIRES))
                        : new Message(plug.topic(), plug.off(), Quality.AT_MOST_ONCE, false, Optional.empty()));
    }

    private void send(Message message) throws IOException {
        Optional<String> failure;
        try {
            Delivery sent = link.publish(message).get(SENT_WITHIN_MILLIS, TimeUnit.MILLISECONDS);
            failure = sent.fold(arrived -> Optional.empty(), lost -> Optional.of(lost.why()));
        } catch (TimeoutException slow) {
            failure = Optional.of("the connection to the broker takes nothing");
        } catch (ExecutionException | InterruptedException e) {
            throw new IOException("the plug could not be told: " + e.getMessage(), e);
        }
        if (failure.isPresent()) throw new IOException("the plug could not be told: " + failure.get());
    }
}

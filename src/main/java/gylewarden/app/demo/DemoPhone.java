package gylewarden.app.demo;

import gylewarden.journal.Letter;
import gylewarden.message.Channel;
import gylewarden.message.Delivery;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Where the demo's messages go: nobody's phone, and always reached. What it was told stands in the log and beside each alarm. */
record DemoPhone() implements Channel {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    @Override
    public String name() {
        return "phone";
    }

    @Override
    public Delivery carry(Letter letter) {
        LOG.info("message to the demo's phone: {}", letter.subject());
        return new Delivery.Arrived();
    }
}

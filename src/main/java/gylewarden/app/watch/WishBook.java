package gylewarden.app.watch;

import gylewarden.document.Unreadable;
import gylewarden.post.Wishes;
import gylewarden.post.WishesText;
import gylewarden.store.Ledger;
import gylewarden.store.Outcome;
import gylewarden.store.Setting;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What people want of each channel, kept in the record. */
record WishBook(Ledger ledger) {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    Wishes of(String channel) {
        Optional<Setting> kept = ledger.setting(name(channel)).value();
        if (kept.isEmpty()) return Wishes.standard(channel);
        try {
            return WishesText.read(channel, kept.get().value());
        } catch (Unreadable e) {
            LOG.warn(
                    "message: {} is used as if nobody had changed anything about it, for {}.", channel, e.getMessage());
            return Wishes.standard(channel);
        }
    }

    Outcome keep(Wishes wishes) {
        String name = name(wishes.channel());
        long revision = ledger.setting(name).value().map(Setting::revision).orElse(0L) + 1;
        return ledger.keep(new Setting(name, WishesText.of(wishes).toString(), revision));
    }

    private static String name(String channel) {
        return "message." + channel;
    }
}

package gylewarden.app.watch;

import gylewarden.alarm.Rule;
import java.util.Set;

/** Which rules people want to hear nothing of. */
public interface OutOfService {
    Set<Rule> of(String chamber);
}

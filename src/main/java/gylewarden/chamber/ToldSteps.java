package gylewarden.chamber;

import gylewarden.schedule.ClockReading;
import gylewarden.schedule.CourseEvent;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;

/** What has been told of a schedule lately, so that moving it on over the same seconds again tells nothing twice. */
final class ToldSteps {
    /** More than keeping a person's word may take. */
    private static final Duration REMEMBERED = Duration.ofMinutes(5);

    private record Told(CourseEvent event, Duration sinceBoot) {}

    private final Deque<Told> told = new ArrayDeque<>();

    /**
     * What of it is new; from now on it is told.
     *
     * @param events on the way from one moment to the other
     */
    List<CourseEvent> news(List<CourseEvent> events, ClockReading from, ClockReading to) {
        while (!told.isEmpty()
                && to.sinceBoot().minus(told.peekFirst().sinceBoot()).compareTo(REMEMBERED) > 0) told.removeFirst();
        if (events.isEmpty()) return events;
        List<Told> again = new ArrayList<>();
        for (Told each : told)
            if (from.boot().equals(to.boot()) && each.sinceBoot().compareTo(from.sinceBoot()) > 0) again.add(each);
        List<CourseEvent> news = new ArrayList<>();
        for (CourseEvent event : events) if (!wasTold(event, again)) news.add(event);
        for (CourseEvent event : news) told.addLast(new Told(event, to.sinceBoot()));
        return news;
    }

    private static boolean wasTold(CourseEvent event, List<Told> again) {
        for (Iterator<Told> each = again.iterator(); each.hasNext(); ) {
            if (!each.next().event().equals(event)) continue;
            each.remove();
            return true;
        }
        return false;
    }
}

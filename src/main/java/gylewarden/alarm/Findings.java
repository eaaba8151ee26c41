package gylewarden.alarm;

import gylewarden.alarm.Finding.Standing;
import gylewarden.control.Condition;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the rules find. Remembers of each chamber how its beer travels and how fast it moves, and nothing else.
 *
 * @param travels by the chamber's id
 * @param trends by the chamber's id
 */
public record Findings(Map<String, Travel> travels, Map<String, Trend> trends) {
    /** So long after it an event is still news; then it is history, and in the log. */
    public static final Duration AN_EVENT_IS_NEWS = Duration.ofHours(12);
    /** A year of the record of one chamber is some tens of megabytes, and a copy of it needs as much again. */
    public static final long DISK_FULL_MEGABYTES = 200;

    private static final long DISK_BACK_MEGABYTES = 250;

    /** In a vessel that is out, or with the lid open, a probe says what it likes: both relays are released, and a person is there. */
    private static final Set<Rule> NOT_DURING_A_PAUSE =
            EnumSet.of(Rule.ONLY_PROBE_LOST, Rule.BEER_PROBE_DOUBTED, Rule.OTHER_PROBE_DOUBTED);

    public Findings {
        travels = Map.copyOf(travels);
        trends = Map.copyOf(trends);
    }

    /** What was found, and what is remembered for the next time. */
    public record Found(Findings next, List<Finding> findings) {
        public Found {
            findings = List.copyOf(findings);
        }
    }

    /** At a start of the daemon. */
    public static Findings none() {
        return new Findings(Map.of(), Map.of());
    }

    /** @param sights of every chamber that has ticked; a chamber that is not there is not judged */
    public Found of(List<Sight> sights, BoardSight board, Wording words, Uptime now) {
        Map<String, Travel> nextTravels = new HashMap<>();
        Map<String, Trend> nextTrends = new HashMap<>();
        List<Finding> findings = new ArrayList<>();
        for (Sight sight : sights) {
            Travel travel =
                    travels.getOrDefault(sight.chamber(), Travel.beginning()).observing(sight, now);
            nextTravels.put(sight.chamber(), travel);
            Trend trend = trend(sight.chamber()).observing(sight.beer(), now);
            nextTrends.put(sight.chamber(), trend);
            List<Finding> here = new ArrayList<>(ofConditions(sight, trend, words));
            here.addAll(Drift.of(sight, travel.goesWell(sight, now), words));
            here.addAll(ofEvents(sight, words, now));
            here.forEach(finding -> findings.add(inService(finding, sight.outOfService())));
        }
        ofHouse(sights, words).forEach(finding -> findings.add(inService(finding, board.outOfService())));
        ofBoard(board, words, now).forEach(finding -> findings.add(inService(finding, board.outOfService())));
        return new Found(new Findings(nextTravels, nextTrends), findings);
    }

    /** How fast the beer of a chamber moves, in kelvins an hour; absent while that can't be said. */
    public Optional<Kelvins> beerPerHour(String chamber) {
        return trend(chamber).perHour();
    }

    private Trend trend(String chamber) {
        return trends.getOrDefault(chamber, Trend.beginning());
    }

    private static Finding inService(Finding finding, Set<Rule> outOfService) {
        return outOfService.contains(finding.key().rule()) ? finding.with(Standing.OUT_OF_SERVICE) : finding;
    }

    private static List<Finding> ofConditions(Sight sight, Trend trend, Wording words) {
        List<Finding> findings = new ArrayList<>();
        for (Rule rule : Rule.values()) {
            boolean lasts =
                    rule.condition().filter(sight.conditions()::contains).isPresent();
            if (!lasts || rule == Rule.RESTARTS_REPEAT) continue;
            boolean suppressed = (sight.paused() && NOT_DURING_A_PAUSE.contains(rule))
                    || (rule == Rule.NOT_ARRIVING && trend.goesTo(sight.setpoint()));
            Standing standing = suppressed ? Standing.SUPPRESSED : Standing.ACTIVE;
            findings.add(new Finding(
                    Key.of(rule, sight.chamber()),
                    standing,
                    rule.priority(),
                    rule.onDelay(),
                    beyond(rule, sight),
                    words.matter(rule, sight)));
        }
        if (sight.conditions().contains(Condition.ONLY_PROBE_LOST)
                && !sight.outOfService().contains(Rule.ONLY_PROBE_LOST))
            findings.add(Finding.active(Key.of(Rule.BEER_PROBE_DOUBTED, sight.chamber()), "")
                    .with(Standing.SUPERSEDED));
        return findings;
    }

    /** How far a temperature is beyond the limit that the rule is about. */
    private static Optional<Kelvins> beyond(Rule rule, Sight sight) {
        Optional<Kelvins> far = switch (rule) {
            case NEAR_FREEZING -> sight.beer().map(beer -> sight.freezing().minus(beer));
            case BEER_BEYOND_LIMIT -> sight.beer().map(beer -> beyond(beer, sight));
            case AIR_ABOVE_CEILING ->
                sight.air().map(air -> air.minus(sight.limits().airMax()));
            default -> Optional.empty();
        };
        return far;
    }

    private static Kelvins beyond(Temperature beer, Sight sight) {
        Kelvins above = beer.minus(sight.limits().beerMax());
        Kelvins below = sight.limits().beerMin().minus(beer);
        return above.isMoreThan(below) ? above : below;
    }

    private static List<Finding> ofEvents(Sight sight, Wording words, Uptime now) {
        List<Finding> findings = new ArrayList<>();
        if (sight.waits().isPresent())
            findings.add(
                    Finding.active(Key.of(Rule.STEP_WAITS, sight.chamber()), words.matter(Rule.STEP_WAITS, sight)));
        if (sight.powerAway().filter(away -> isNews(away.noticed(), now)).isPresent())
            findings.add(Finding.active(
                    Key.of(Rule.POWER_WAS_AWAY, sight.chamber()), words.matter(Rule.POWER_WAS_AWAY, sight)));
        return findings;
    }

    private static boolean isNews(Uptime happened, Uptime now) {
        return now.since(happened).compareTo(AN_EVENT_IS_NEWS) < 0;
    }

    /** What each chamber says, but is the same for all. */
    private static List<Finding> ofHouse(List<Sight> sights, Wording words) {
        return sights.stream()
                .filter(sight -> sight.conditions().contains(Condition.RESTARTS_REPEAT))
                .findFirst()
                .map(sight ->
                        Finding.active(Key.ofBoard(Rule.RESTARTS_REPEAT), words.matter(Rule.RESTARTS_REPEAT, sight)))
                .stream()
                .toList();
    }

    private static List<Finding> ofBoard(BoardSight board, Wording words, Uptime now) {
        List<Finding> findings = new ArrayList<>();
        if (board.restarted().filter(at -> isNews(at, now)).isPresent())
            findings.add(active(Key.ofBoard(Rule.RESTARTED), board, words));
        if (board.dataFolder().isPresent()) findings.add(active(Key.ofBoard(Rule.DATA_FOLDER_AWAY), board, words));
        if (board.record().isPresent()) findings.add(active(Key.ofBoard(Rule.RECORD_BROKEN), board, words));
        if (!board.clockTrusted()) findings.add(active(Key.ofBoard(Rule.CLOCK_NOT_TRUSTED), board, words));
        if (board.broker().isPresent()) findings.add(active(Key.ofBoard(Rule.BROKER_AWAY), board, words));
        for (String channel : board.channels().keySet())
            findings.add(active(Key.ofBoard(Rule.CHANNEL_FAILING, channel), board, words));
        if (board.backup().isPresent()) findings.add(active(Key.ofBoard(Rule.BACKUP_FAILING), board, words));
        board.freeMegabytes().filter(free -> free < DISK_BACK_MEGABYTES).ifPresent(free -> {
            Finding finding = active(Key.ofBoard(Rule.DISK_FILLING), board, words);
            findings.add(free < DISK_FULL_MEGABYTES ? finding : finding.with(Standing.HOLDS));
        });
        return findings;
    }

    private static Finding active(Key key, BoardSight board, Wording words) {
        return Finding.active(key, words.matter(key, board));
    }
}

package gylewarden.app.simulate;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.simulation.Summary;
import gylewarden.units.Kelvins;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/** The figures of a run for programs ({@code summary.json}) and for people. A figure that cannot be is left out. */
final class SummaryFile {
    private SummaryFile() {}

    /** @param wallSeconds what the run took; the only figure that differs from run to run */
    static String json(Summary summary, double wallSeconds) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        put(json, "rmseKelvin", kelvins(summary.rmse()));
        put(json, "maxErrorKelvin", kelvins(summary.maxError()));
        put(json, "overshootKelvin", kelvins(summary.overshoot()));
        put(json, "coolingStartsPerDay", summary.coolingStartsPerDay());
        put(json, "heatingStartsPerDay", summary.heatingStartsPerDay());
        json.put("mostCoolingStartsInAnHour", summary.mostCoolingStartsInAnHour());
        put(json, "shortestCoolingOffSeconds", summary.shortestCoolingOff());
        put(json, "shortestCoolingOnSeconds", summary.shortestCoolingOn());
        put(json, "shortestChangeOverSeconds", summary.shortestChangeOver());
        put(json, "kilowattHoursPerDay", summary.kilowattHoursPerDay());
        put(json, "simulatedDays", OptionalDouble.of(summary.simulatedDays()));
        put(json, "wallSeconds", OptionalDouble.of(wallSeconds));
        return json.toPrettyString() + '\n';
    }

    /** A line each: what, and what came out. */
    static String text(Summary summary, double wallSeconds) {
        var text = new StringBuilder();
        line(text, "Simulated", days(summary.simulatedDays()) + pace(summary, wallSeconds));
        summary.rmse()
                .ifPresent(rmse -> line(
                        text,
                        "Beer off its setpoint",
                        form("%.2f K root mean square", rmse.value())
                                + summary.maxError()
                                        .map(most -> form(", %.2f K at most", most.value()))
                                        .orElse("")));
        line(
                text,
                "Overshoot",
                summary.overshoot()
                        .map(most -> form("%.2f K at most", most.value()))
                        .orElse("the setpoint was never reached"));
        summary.coolingStartsPerDay()
                .ifPresent(starts -> line(
                        text,
                        "Cooling",
                        form("%.1f starts a day, ", starts)
                                + summary.mostCoolingStartsInAnHour()
                                + " in the busiest hour"
                                + shortest(", shortest run ", summary.shortestCoolingOn())
                                + shortest(", shortest pause ", summary.shortestCoolingOff())));
        summary.heatingStartsPerDay().ifPresent(starts -> line(text, "Heating", form("%.1f starts a day", starts)));
        summary.shortestChangeOver()
                .ifPresent(span ->
                        line(text, "Change-over", "at least " + time(span) + " between one side and the other"));
        summary.kilowattHoursPerDay().ifPresent(used -> line(text, "Electricity", form("%.2f kWh a day", used)));
        return text.toString();
    }

    private static String pace(Summary summary, double wallSeconds) {
        if (wallSeconds <= 0) return "";
        return form(" in %.1f s", wallSeconds)
                + form(", %,.0f times as fast as real time", summary.simulatedDays() * 86_400 / wallSeconds);
    }

    private static String days(double days) {
        return TraceFiles.decimal(days) + (days == 1 ? " day" : " days");
    }

    private static String shortest(String what, Optional<Duration> span) {
        return span.map(each -> what + time(each)).orElse("");
    }

    private static String time(Duration span) {
        long minutes = span.toMinutes();
        if (minutes >= 120) return span.toHours() + " h " + span.toMinutesPart() + " min";
        return span.toSecondsPart() == 0 ? minutes + " min" : minutes + " min " + span.toSecondsPart() + " s";
    }

    private static void line(StringBuilder text, String what, String figure) {
        text.append(form("%-23s%s", what, figure)).append('\n');
    }

    private static String form(String form, Object... values) {
        return String.format(Locale.ROOT, form, values);
    }

    private static OptionalDouble kelvins(Optional<Kelvins> kelvins) {
        return kelvins.map(each -> OptionalDouble.of(each.value())).orElse(OptionalDouble.empty());
    }

    private static void put(ObjectNode json, String key, Optional<Duration> span) {
        span.ifPresent(each -> json.put(key, each.toSeconds()));
    }

    private static void put(ObjectNode json, String key, OptionalDouble value) {
        value.ifPresent(each -> json.put(
                key,
                BigDecimal.valueOf(each).setScale(6, RoundingMode.HALF_EVEN).stripTrailingZeros()));
    }
}

package gylewarden.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.document.Json;
import gylewarden.journal.Minute.Spread;
import gylewarden.store.Thinned;
import gylewarden.store.Thinned.Bucket;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/** What was measured. */
final class ReadingRoutes {
    private static final int MOST_POINTS = 2000;
    private static final int POINTS = 500;
    private static final Duration SPAN = Duration.ofDays(1);

    private final Wired wired;

    ReadingRoutes(Wired wired) {
        this.wired = wired;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/api/chambers/{id}/readings", this::readings),
                Route.get(BatchRoutes.ONE + "/readings", this::readingsOfBatch),
                new Route(Route.Method.GET, BatchRoutes.ONE + "/readings.csv", "text/csv", this::table));
    }

    private Reply readings(Call call) throws Refused {
        House.Room room = ChamberRoutes.room(wired.house(), call.parameter("id"));
        Span span = span(call);
        Thinned thinned =
                Recorded.of(() -> wired.chronicle().readings(room.id(), span.from(), span.to(), span.points()));
        return Reply.json(columns(thinned.buckets()));
    }

    private record Span(Instant from, Instant to, int points) {}

    private Span span(Call call) throws Refused {
        Instant to = call.instant("to").orElseGet(() -> wired.house().clock().now());
        Instant from = call.instant("from").orElse(to.minus(SPAN));
        if (!from.isBefore(to))
            throw new Refused(Problem.mistake("from", "is not before to; write a time before " + Times.text(to)));
        int points = Math.toIntExact(call.whole("points", 1, MOST_POINTS).orElse((long) POINTS));
        return new Span(from, to, points);
    }

    /** Of the chambers in which the batch was, each for as long as it was there; of the first one also what was before. */
    private Reply readingsOfBatch(Call call) throws Refused {
        Batch batch = BatchRoutes.found(wired, call).batch();
        Span span = span(call);
        Instant end = batch.dates().ended().filter(span.to()::isAfter).orElse(span.to());
        List<Bucket> buckets = new ArrayList<>();
        Instant from = span.from();
        for (Chronicle.Left left : Recorded.of(() -> wired.chronicle().left(batch.id()))) {
            Instant until = left.at().isBefore(end) ? left.at() : end;
            buckets.addAll(part(left.chamber(), from, until, span));
            if (until.isAfter(from)) from = until;
        }
        buckets.addAll(part(batch.chamber(), from, end, span));
        return Reply.json(columns(buckets));
    }

    /** With its share of the points. */
    private List<Bucket> part(String chamber, Instant from, Instant to, Span whole) throws Refused {
        if (!from.isBefore(to)) return List.of();
        double share = (double) Duration.between(from, to).toMillis()
                / Duration.between(whole.from(), whole.to()).toMillis();
        int points = Math.max(1, (int) (whole.points() * share));
        return Recorded.of(() -> wired.chronicle().readings(chamber, from, to, points))
                .buckets();
    }

    /** Columns of equal length; a probe that is not fitted, or was never believed in that time, has none. */
    private static ObjectNode columns(List<Bucket> buckets) {
        ObjectNode document = Json.object();
        ArrayNode at = document.putArray("at");
        for (Bucket bucket : buckets) at.add(Times.text(bucket.from()));
        spread(document, "beer", buckets, Bucket::beer);
        spread(document, "secondBeer", buckets, Bucket::secondBeer);
        spread(document, "air", buckets, Bucket::air);
        spread(document, "room", buckets, Bucket::room);
        ArrayNode setpoints = document.putArray("setpoint");
        for (Bucket bucket : buckets) add(setpoints, bucket.setpoint());
        fraction(document.putArray("cooling"), buckets, Bucket::coolingFraction);
        fraction(document.putArray("heating"), buckets, Bucket::heatingFraction);
        return document;
    }

    private static void spread(
            ObjectNode document, String name, List<Bucket> buckets, Function<Bucket, Optional<Spread>> of) {
        boolean always = name.equals("beer");
        if (!always && buckets.stream().allMatch(bucket -> of.apply(bucket).isEmpty())) return;
        ObjectNode probe = document.putObject(name);
        ArrayNode min = probe.putArray("min");
        ArrayNode mean = probe.putArray("mean");
        ArrayNode max = probe.putArray("max");
        for (Bucket bucket : buckets) {
            Optional<Spread> spread = of.apply(bucket);
            add(min, spread.map(Spread::least));
            add(mean, spread.map(Spread::mean));
            add(max, spread.map(Spread::most));
        }
    }

    private static void add(ArrayNode column, Optional<Temperature> temperature) {
        if (temperature.isPresent()) column.add(Figures.celsius(temperature.get()));
        else column.addNull();
    }

    private static void fraction(ArrayNode column, List<Bucket> buckets, Function<Bucket, OptionalDouble> of) {
        for (Bucket bucket : buckets) {
            OptionalDouble fraction = of.apply(bucket);
            if (fraction.isPresent()) column.add(Figures.rounded(fraction.getAsDouble()));
            else column.addNull();
        }
    }

    private Reply table(Call call) throws Refused {
        Batch batch = BatchRoutes.found(wired, call).batch();
        Chronicle.Pieces pieces = Recorded.of(() -> wired.chronicle().table(batch.id()));
        return new Reply(
                200,
                "text/csv; charset=utf-8",
                Map.of(
                        "Cache-Control",
                        "no-cache",
                        "Content-Disposition",
                        "attachment; filename=\"readings-" + batch.id() + ".csv\""),
                new TableSource(pieces));
    }
}

package gylewarden.document;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.batch.Batch;
import gylewarden.batch.Batch.Dates;
import gylewarden.batch.Batch.Stage;
import gylewarden.schedule.Course;
import gylewarden.schedule.Course.OverrideFor;
import gylewarden.schedule.Place;
import gylewarden.schedule.Schedule;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** A batch with its course, as JSON: what is kept of it. Not for people to edit; the API has documents of its own. */
public final class BatchDocument {
    private BatchDocument() {}

    /** Reading it gives the same batch. */
    public static String write(Batch batch) {
        return tree(batch).toString();
    }

    /** @throws Unreadable if the text is not what {@link #write} gives */
    public static Batch read(String text) throws Unreadable {
        return MandateDocument.kept(text, BatchDocument::read);
    }

    static ObjectNode tree(Batch batch) {
        ObjectNode document = Json.object();
        document.put("id", batch.id().toString());
        document.put("name", batch.name());
        document.put("chamber", batch.chamber());
        document.put("stage", batch.stage().name());
        Dates dates = batch.dates();
        document.put("created", dates.created().toString());
        dates.pitched().ifPresent(at -> document.put("pitched", at.toString()));
        dates.stepSince().ifPresent(at -> document.put("stepSince", at.toString()));
        dates.ended().ifPresent(at -> document.put("ended", at.toString()));
        MandateDocument.put(document, "pitchCelsius", batch.pitchAt());
        document.put("revision", batch.revision());
        document.put("unpitched", batch.unpitched().toString());
        document.set("course", course(batch.course()));
        ArrayNode undos = document.putArray("undos");
        for (Batch.Undo undo : batch.undos())
            undos.addObject()
                    .put("what", undo.what())
                    .put("at", undo.at().toString())
                    .put("stage", undo.stage().name())
                    .set("course", undoneCourse(undo.course(), batch.schedule()));
        return document;
    }

    private static ObjectNode course(Course course) {
        ObjectNode document = Json.object();
        document.set("schedule", ScheduleDocument.tree(course.schedule()));
        return with(document, course);
    }

    /** This is written each minute, and costs the card a page for each 4096 bytes: a schedule that is the batch's is not told again. */
    private static ObjectNode undoneCourse(Course course, Schedule present) {
        return course.schedule().equals(present) ? with(Json.object(), course) : course(course);
    }

    private static ObjectNode with(ObjectNode document, Course course) {
        MandateDocument.put(document, "startCelsius", course.start());
        MandateDocument.put(document, "heldCelsius", course.held());
        course.override()
                .ifPresent(other -> document.putObject("override")
                        .put("celsius", other.temperature().celsius())
                        .put("left", other.left().toString()));
        Place place = course.place();
        ObjectNode at = document.putObject("place");
        at.put("step", place.step());
        MandateDocument.put(at, "fromCelsius", place.from());
        put(at, "lineStart", place.lineStart());
        put(at, "spent", place.spent());
        put(at, "counted", place.counted());
        put(at, "settled", place.settled());
        put(at, "added", place.added());
        put(at, "waited", place.waited());
        at.put("phase", place.phase().name());
        return document;
    }

    private static void put(ObjectNode document, String name, Duration duration) {
        if (!duration.isZero()) document.put(name, duration.toString());
    }

    static Batch read(Fields fields) {
        Dates dates = new Dates(
                needed(fields.instant("created"), "created"),
                fields.instant("pitched"),
                fields.instant("stepSince"),
                fields.instant("ended"));
        Course course = readCourse(needed(fields.object("course"), "course"), Optional.empty());
        return new Batch(
                UUID.fromString(needed(fields.text("id"), "id")),
                needed(fields.text("name"), "name"),
                needed(fields.text("chamber"), "chamber"),
                Stage.valueOf(needed(fields.text("stage"), "stage")),
                dates,
                MandateDocument.celsius(fields, "pitchCelsius"),
                whole(fields, "revision"),
                course,
                needed(fields.duration("unpitched"), "unpitched"),
                undos(fields, course.schedule()));
    }

    private static List<Batch.Undo> undos(Fields fields, Schedule present) {
        List<Batch.Undo> undos = new ArrayList<>();
        for (Optional<Fields> each : needed(fields.objects("undos"), "undos")) {
            Fields undo = needed(each, "undo");
            undos.add(new Batch.Undo(
                    needed(undo.text("what"), "what"),
                    needed(undo.instant("at"), "at"),
                    Stage.valueOf(needed(undo.text("stage"), "stage")),
                    readCourse(needed(undo.object("course"), "course"), Optional.of(present))));
        }
        return undos;
    }

    /** @param otherwise the schedule of a course that tells none */
    private static Course readCourse(Fields fields, Optional<Schedule> otherwise) {
        Optional<OverrideFor> override = fields.object("override")
                .map(other -> new OverrideFor(
                        needed(MandateDocument.celsius(other, "celsius"), "celsius"),
                        needed(other.duration("left"), "left")));
        return new Course(
                needed(fields.node("schedule").map(BatchDocument::schedule).or(() -> otherwise), "schedule"),
                MandateDocument.celsius(fields, "startCelsius"),
                place(needed(fields.object("place"), "place")),
                MandateDocument.celsius(fields, "heldCelsius"),
                override);
    }

    private static Schedule schedule(JsonNode document) {
        return ScheduleDocument.read(document).fold(ScheduleDocument.Read.Understood::schedule, refused -> {
            throw new IllegalArgumentException("schedule: " + refused.mistakes());
        });
    }

    private static Place place(Fields fields) {
        return new Place(
                whole(fields, "step"),
                MandateDocument.celsius(fields, "fromCelsius"),
                duration(fields, "lineStart"),
                duration(fields, "spent"),
                duration(fields, "counted"),
                duration(fields, "settled"),
                duration(fields, "added"),
                duration(fields, "waited"),
                Place.Phase.valueOf(needed(fields.text("phase"), "phase")));
    }

    private static Duration duration(Fields fields, String name) {
        return fields.duration(name).orElse(Duration.ZERO);
    }

    private static int whole(Fields fields, String name) {
        return Math.toIntExact(needed(fields.whole(name), name));
    }

    private static <T> T needed(Optional<T> value, String name) {
        return value.orElseThrow(() -> new IllegalArgumentException("no " + name));
    }
}

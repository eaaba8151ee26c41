package gylewarden.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import gylewarden.document.Json;
import gylewarden.schedule.Mistake;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Why a request was not done, as RFC 9457 has it (application/problem+json).
 *
 * @param detail what happened and what to do now
 * @param errors each field that has to be put right; empty if no field is at fault
 */
record Problem(Kind kind, String detail, List<Mistake> errors) {
    static final String CONTENT_TYPE = "application/problem+json";

    /** Status codes of RFC 9110 and RFC 6585 with their names there. */
    enum Kind {
        BAD_REQUEST(400, "Bad Request"),
        FORBIDDEN(403, "Forbidden"),
        NOT_FOUND(404, "Not Found"),
        METHOD_NOT_ALLOWED(405, "Method Not Allowed"),
        NOT_ACCEPTABLE(406, "Not Acceptable"),
        CONFLICT(409, "Conflict"),
        PRECONDITION_FAILED(412, "Precondition Failed"),
        CONTENT_TOO_LARGE(413, "Content Too Large"),
        UNSUPPORTED_MEDIA_TYPE(415, "Unsupported Media Type"),
        MISDIRECTED_REQUEST(421, "Misdirected Request"),
        UNPROCESSABLE_CONTENT(422, "Unprocessable Content"),
        PRECONDITION_REQUIRED(428, "Precondition Required"),
        HEADERS_TOO_LARGE(431, "Request Header Fields Too Large"),
        INTERNAL_SERVER_ERROR(500, "Internal Server Error"),
        SERVICE_UNAVAILABLE(503, "Service Unavailable");

        private final int status;
        private final String title;

        Kind(int status, String title) {
            this.status = status;
            this.title = title;
        }

        int status() {
            return status;
        }
    }

    Problem {
        errors = List.copyOf(errors);
    }

    static Problem of(Kind kind, String detail) {
        return new Problem(kind, detail, List.of());
    }

    /** A request of which all is understood but these fields. */
    static Problem mistakes(List<Mistake> errors) {
        String count = errors.size() == 1 ? "One field has" : errors.size() + " fields have";
        return new Problem(
                Kind.UNPROCESSABLE_CONTENT, count + " to be put right; see errors. Nothing was changed.", errors);
    }

    static Problem mistake(String field, String message) {
        return mistakes(List.of(new Mistake(field, message)));
    }

    byte[] json() {
        ObjectNode document = Json.object();
        document.put("type", "about:blank").put("title", kind.title).put("status", kind.status);
        document.put("detail", detail);
        var list = document.putArray("errors");
        for (Mistake error : errors)
            list.addObject().put("field", error.field()).put("message", error.message());
        return document.toString().getBytes(StandardCharsets.UTF_8);
    }
}

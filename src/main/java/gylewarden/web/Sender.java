package gylewarden.web;

import io.javalin.http.Context;
import jakarta.servlet.ServletOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.eclipse.jetty.ee10.servlet.ServletContextRequest;

/** Sends replies by way of {@link Outflow}. */
final class Sender {
    private Sender() {}

    static void send(Context context, Reply reply) {
        String takes = context.header("Accept-Encoding");
        Reply sent = takes != null && takes.contains("gzip") ? reply.packed() : reply;
        var response = context.res();
        response.setStatus(sent.status());
        sent.headers().forEach(response::setHeader);
        if (sent.type().isEmpty()) {
            response.setContentType(null);
            return;
        }
        response.setContentType(sent.type());
        if (sent.source() instanceof Outflow.Once once) response.setContentLength(once.bytes().length);
        context.future(() -> Outflow.begin(stream(context), sent.source(), () -> cut(context)));
    }

    private static void cut(Context context) {
        ServletContextRequest.getServletContextRequest(context.req())
                .getConnectionMetaData()
                .getConnection()
                .getEndPoint()
                .close();
    }

    private static ServletOutputStream stream(Context context) {
        try {
            return context.res().getOutputStream();
        } catch (IOException gone) {
            throw new UncheckedIOException(gone);
        }
    }
}

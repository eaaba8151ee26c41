package gylewarden.web;

/**
 * One thing that can be asked for.
 *
 * @param path with its parameters in braces
 * @param produces the media type of what is answered when all goes well
 */
record Route(Method method, String path, String produces, Work work) {
    static final String JSON = "application/json";

    enum Method {
        GET,
        POST,
        PUT,
        PATCH,
        DELETE
    }

    /** Answers one call. */
    interface Work {
        Reply answer(Call call) throws Refused;
    }

    static Route get(String path, Work work) {
        return new Route(Method.GET, path, JSON, work);
    }

    static Route json(Method method, String path, Work work) {
        return new Route(method, path, JSON, work);
    }
}

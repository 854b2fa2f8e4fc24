package org.steamwright.desk.web;

import jakarta.servlet.http.HttpServlet;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.Collectors;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.text.Words;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.report.language.Language;

/** Answers requests: guards, finds the route, checks the right, lets the room answer, puts the page together. */
final class DeskServlet extends HttpServlet {

    /** Where the session keeps the language that a reader has chosen. */
    static final String LANGUAGE = "steamwright-language";

    private static final Logger LOG = Logger.getLogger(DeskServlet.class.getName());
    private static final long serialVersionUID = 1L;
    private static final Set<Role> STAFF = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final String STATIC = "/static/";
    private static final String PDF = "application/pdf";

    /** A session of somebody who is not known: long enough to log in. */
    private static final int STRANGER_SECONDS = 10 * 60;

    private static final long BYTES_PER_MEGABYTE = 1_000_000;
    private static final long MOST_SWALLOWED = 4 * DeskServer.LARGEST;

    private final transient List<Route> routes;
    private final transient Guard guard;
    private final transient Doorkeeper doorkeeper;
    private final transient BooleanSupplier isInvented;
    private final boolean isTraining;
    private final transient FreeDisk disk;
    private final transient Supplier<Alarm> alarm;
    private final transient Templates templates = new Templates();
    private final transient Statics statics = new Statics();

    DeskServlet(DeskServer.Setup setup, Guard guard) {
        this.routes = setup.routes();
        this.guard = guard;
        this.doorkeeper = setup.doorkeeper();
        this.isInvented = setup.isInvented();
        this.isTraining = setup.isTraining();
        this.disk = setup.disk();
        this.alarm = setup.alarm();
    }

    @Override
    protected void service(HttpServletRequest request, HttpServletResponse response) throws IOException {
        try {
            serve(request, response);
        } catch (OutOfMemoryError tooLarge) {
            broken(request, response, 507, tooLarge);
        } catch (RuntimeException mistake) {
            broken(request, response, 500, mistake);
        }
    }

    /** What nobody foresaw outside a room: told in plain words, or, if an answer has begun, by ending it so that it shows. */
    private static void broken(HttpServletRequest request, HttpServletResponse response, int status, Throwable why)
            throws IOException {
        LOG.log(
                Level.SEVERE,
                "a mistake of the program at " + request.getMethod() + " " + request.getRequestURI(),
                why);
        if (response.isCommitted()) {
            throw new IOException("the answer broke off", why);
        }
        response.reset();
        Guard.headers(request, response);
        plain(response, status, "The desk could not answer. What was kept before stays kept; try again.");
    }

    private void serve(HttpServletRequest request, HttpServletResponse response) throws IOException {
        Guard.headers(request, response);
        Optional<String> objection = guard.objection(request);
        if (objection.isPresent()) {
            doorkeeper.refused(request, Person.STRANGER, request.getMethod(), "sent by a page of somebody else");
            plain(response, HttpServletResponse.SC_FORBIDDEN, objection.get() + ".");
            return;
        }
        String path = request.getPathInfo() == null ? request.getServletPath() : request.getPathInfo();
        if (path.startsWith(STATIC)) {
            statics.answer(path.substring(STATIC.length()), request, response);
            return;
        }
        Optional<Route> route = routes.stream()
                .filter(one -> one.method().name().equals(request.getMethod()))
                .filter(one -> one.match(path).isPresent())
                .findFirst();
        boolean isWithoutSession = route.isPresent() && route.get().treatment() == Treatment.WITHOUT_SESSION;
        Person person = isWithoutSession ? Person.STRANGER : doorkeeper.person(request);
        boolean isStranger = person.roles().isEmpty();
        // a page that a stranger may not see, or that is not there, needs no session
        boolean needsSession =
                !isWithoutSession && (!isStranger || (route.isPresent() && isOpen(route.get(), person, request)));
        if (needsSession && isStranger && request.getSession(false) == null) {
            Optional<Duration> wait = doorkeeper.limits().flatMap(limits -> limits.session(address(request)));
            if (wait.isPresent()) {
                doorkeeper.refused(request, person, "a new session", "too much within a short time");
                wait(response, wait.get());
                plain(response, 429, "Too many new visitors from this address. Wait, then try again.");
                return;
            }
        }
        Language language = language(request);
        Frame frame = new Frame(
                Words.in(language),
                new Figures(language),
                person,
                path,
                needsSession ? Guard.token(request, response) : "",
                places(person),
                isInvented.getAsBoolean(),
                isTraining,
                isWholePageFor(person, request) ? alarm.get() : Alarm.NONE);
        if (needsSession) {
            request.getSession().setMaxInactiveInterval(isStranger ? STRANGER_SECONDS : DeskServer.IDLE_SECONDS);
        }
        if (route.isEmpty()) {
            send(refusal(frame, 404, "web.not-found"), frame, request, response);
            return;
        }
        Optional<Reply> refusal = refusal(route.get(), request, response, frame);
        if (refusal.isPresent()) {
            send(refusal.get(), frame, request, response);
        } else if (route.get().treatment() == Treatment.DEAR
                && doorkeeper.limits().isPresent()) {
            inTurn(doorkeeper.limits().get(), route.get(), request, response, frame);
        } else {
            send(answer(route.get(), path, request, response, frame), frame, request, response);
        }
    }

    /** Whether that person may use a route; of what is open to everybody, a stranger may use what the doorkeeper admits. */
    private boolean isOpen(Route route, Person person, HttpServletRequest request) {
        return route.isOpenTo(person) && (!person.roles().isEmpty() || doorkeeper.admits(request, route));
    }

    /** Whether a page of the staff is asked for, and not a part of one. */
    private static boolean isWholePageFor(Person person, HttpServletRequest request) {
        return person.isOneOf(STAFF) && request.getHeader("HX-Request") == null;
    }

    private void inTurn(
            Limits limits, Route route, HttpServletRequest request, HttpServletResponse response, Frame frame)
            throws IOException {
        Optional<Limits.Turn> turn = limits.turn();
        if (turn.isEmpty()) {
            wait(response, limits.untilTurn());
            send(refusal(frame, 503, "web.busy"), frame, request, response);
            return;
        }
        try {
            send(answer(route, frame.path(), request, response, frame), frame, request, response);
        } finally {
            turn.get().giveBack();
        }
    }

    private static void wait(HttpServletResponse response, Duration time) {
        response.setHeader(
                "Retry-After", String.valueOf(Math.max(1, time.plusMillis(999).toSeconds())));
    }

    /** Why a request is not looked at: no right, too much, or not sent by a page of the desk. */
    private Optional<Reply> refusal(Route route, HttpServletRequest request, HttpServletResponse response, Frame frame)
            throws IOException {
        String what = route.method() + " " + route.pattern();
        if (!isOpen(route, frame.person(), request)) {
            Optional<String> signIn = doorkeeper.signIn(request);
            boolean isStranger = frame.person().roles().isEmpty() && signIn.isPresent();
            if (isStranger && route.method() == Method.GET) {
                return Optional.of(new Reply.Next(signIn.get()));
            }
            doorkeeper.refused(request, frame.person(), what, "no right");
            return Optional.of(refusal(frame, 403, isStranger ? "web.session-over" : "web.not-allowed"));
        }
        if (route.method() != Method.POST) {
            return Optional.empty();
        }
        Optional<Reply> upload = upload(what, request, response, frame);
        if (upload.isPresent()) {
            return upload;
        }
        if (!Guard.hasToken(request, response)) {
            doorkeeper.refused(request, frame.person(), what, "without the token of its page");
            return Optional.of(refusal(frame, 403, "web.no-token"));
        }
        return doorkeeper
                .limits()
                .flatMap(limits -> limits.change(frame.person().name(), address(request)))
                .map(time -> tooMuch(what, time, request, response, frame));
    }

    /** Whether files that are sent are too many or too large; told before they are read. */
    private Optional<Reply> upload(String what, HttpServletRequest request, HttpServletResponse response, Frame frame)
            throws IOException {
        String type = Optional.ofNullable(request.getContentType()).orElse("");
        if (!type.toLowerCase(Locale.ROOT).startsWith("multipart/")) {
            return Optional.empty();
        }
        long bytes = request.getContentLengthLong();
        if (bytes < 0) {
            return Optional.of(refusal(frame, HttpServletResponse.SC_LENGTH_REQUIRED, "web.no-length"));
        }
        Optional<Limits> limits = doorkeeper.limits();
        if (bytes > DeskServer.LARGEST) {
            if (limits.isEmpty()) {
                // a browser shows no answer that comes before it has sent everything; on a laptop this costs nothing
                swallow(request);
            }
            return Optional.of(new Reply.Refusal(
                    HttpServletResponse.SC_REQUEST_ENTITY_TOO_LARGE,
                    frame.say("web.too-large", DeskServer.LARGEST / BYTES_PER_MEGABYTE),
                    frame.say("web.too-large-remedy")));
        }
        if (!disk.takes(bytes)) {
            if (limits.isEmpty()) {
                swallow(request);
            }
            doorkeeper.refused(request, frame.person(), what, "too little of the disk is free");
            return Optional.of(refusal(frame, 507, "web.disk-full"));
        }
        if (limits.isEmpty()) {
            return Optional.empty();
        }
        // an empty form is sent as a request of some bytes, so there is always something to count
        return limits.get()
                .upload(frame.person().name(), address(request), Math.max(1, bytes))
                .map(time -> tooMuch(what, time, request, response, frame));
    }

    /** Reads away what is sent, as far as that is sensible. */
    private static void swallow(HttpServletRequest request) throws IOException {
        byte[] away = new byte[1 << 16];
        long left = MOST_SWALLOWED;
        InputStream in = request.getInputStream();
        for (int read = in.read(away); read >= 0 && left > 0; read = in.read(away)) {
            left -= read;
        }
    }

    private Reply tooMuch(
            String what, Duration time, HttpServletRequest request, HttpServletResponse response, Frame frame) {
        doorkeeper.refused(request, frame.person(), what, "too much within a short time");
        wait(response, time);
        return new Reply.Refusal(
                429,
                frame.say("web.too-much"),
                frame.say(
                        "web.too-much-remedy", Math.max(1, time.plusSeconds(59).toMinutes())));
    }

    private static String address(HttpServletRequest request) {
        return String.valueOf(request.getRemoteAddr());
    }

    private Set<String> places(Person person) {
        return routes.stream()
                .filter(route ->
                        route.method() == Method.GET && !route.pattern().contains("{"))
                .filter(route -> !route.roles().isEmpty() && route.isOpenTo(person))
                .map(Route::pattern)
                .collect(Collectors.toSet());
    }

    private Reply answer(
            Route route, String path, HttpServletRequest request, HttpServletResponse response, Frame frame) {
        Ask ask = new Ask(request, response, route.match(path).orElse(Map.of()), frame);
        try {
            return route.action().answer(ask);
        } catch (FilingException refused) {
            return Reply.Refusal.heard(frame, 409, refused.getMessage() + ".", refused.remedy());
        } catch (RecordsException refused) {
            return refused.id() == RecordsMessage.SUBJECT_UNKNOWN
                    ? refusal(frame, 404, "web.not-found")
                    : new Reply.Refusal(409, refused.id().id() + " " + frame.heard(refused.text()), "");
        } catch (VisitFolderException unreadable) {
            return new Reply.Refusal(422, ProblemText.of(frame, unreadable), frame.say("web.problem.unread-remedy"));
        } catch (RegisterException unreadable) {
            return new Reply.Refusal(422, ProblemText.of(frame, unreadable), "");
        } catch (IOException failed) {
            return new Reply.Refusal(503, String.valueOf(failed.getMessage()), frame.say("web.surroundings-remedy"));
        } catch (OutOfMemoryError tooLarge) {
            LOG.log(Level.WARNING, "no memory was left at " + route.pattern(), tooLarge);
            return refusal(frame, 507, "web.no-memory");
        } catch (RuntimeException mistake) {
            // the last resort: told to whoever runs the desk, not to whoever asks
            LOG.log(Level.SEVERE, "a mistake of the program at " + route.pattern(), mistake);
            return refusal(frame, 500, "web.mistake");
        }
    }

    private static Reply refusal(Frame frame, int status, String key) {
        return new Reply.Refusal(status, frame.say(key), frame.say(key + "-remedy"));
    }

    private void send(Reply reply, Frame frame, HttpServletRequest request, HttpServletResponse response)
            throws IOException {
        if (reply instanceof Reply.Page page) {
            html(response, page.status(), templates.render(page.template(), frame, page.values()));
        } else if (reply instanceof Reply.Next next) {
            response.setStatus(HttpServletResponse.SC_SEE_OTHER);
            response.setHeader("Location", next.path());
        } else if (reply instanceof Reply.Away away) {
            response.setStatus(HttpServletResponse.SC_SEE_OTHER);
            response.setHeader("Location", away.address().toString());
        } else if (reply instanceof Reply.Attachment file) {
            response.setContentType(file.type());
            file.name()
                    .ifPresent(name -> response.setHeader(
                            "Content-Disposition", "attachment; filename*=UTF-8''" + Percent.encoded(name)));
            if (file.type().equals(PDF)) {
                // a document is whole before its answer begins: a part of one that looks like all of it would be relied
                // on
                ByteArrayOutputStream whole = new ByteArrayOutputStream();
                file.content().writeTo(whole);
                response.setContentLength(whole.size());
                whole.writeTo(response.getOutputStream());
            } else {
                file.content().writeTo(response.getOutputStream());
            }
        } else if (reply instanceof Reply.Refusal refusal) {
            html(
                    response,
                    refusal.status(),
                    templates.render("web/refusal.jte", frame, Map.of("refusal", refusal, "back", back(request))));
        }
    }

    /** The page of this desk on which the refused form stood; blank if nothing was sent or it is not known. */
    private static String back(HttpServletRequest request) {
        String referrer = Optional.ofNullable(request.getHeader("Referer")).orElse("");
        String desk = request.getScheme() + "://" + request.getHeader("Host") + "/";
        return request.getMethod().equals("POST") && referrer.startsWith(desk) && !referrer.startsWith(desk + "/")
                ? referrer.substring(desk.length() - 1)
                : "";
    }

    private static void html(HttpServletResponse response, int status, String page) throws IOException {
        response.setStatus(status);
        response.setContentType("text/html;charset=utf-8");
        byte[] bytes = page.getBytes(StandardCharsets.UTF_8);
        response.setContentLength(bytes.length);
        response.getOutputStream().write(bytes);
    }

    private static void plain(HttpServletResponse response, int status, String text) throws IOException {
        response.setStatus(status);
        response.setContentType("text/plain;charset=utf-8");
        response.getOutputStream().write(text.getBytes(StandardCharsets.UTF_8));
    }

    private static Language language(HttpServletRequest request) {
        HttpSession session = request.getSession(false);
        Object chosen = session == null ? null : session.getAttribute(LANGUAGE);
        return chosen instanceof Language language
                ? language
                : Language.accepted(Optional.ofNullable(request.getHeader("Accept-Language"))
                        .orElse(""));
    }
}

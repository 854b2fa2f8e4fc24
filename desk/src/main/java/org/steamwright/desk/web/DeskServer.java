package org.steamwright.desk.web;

import jakarta.servlet.MultipartConfigElement;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.eclipse.jetty.ee10.servlet.ServletContextHandler;
import org.eclipse.jetty.ee10.servlet.ServletHolder;
import org.eclipse.jetty.http.HttpCookie;
import org.eclipse.jetty.server.ForwardedRequestCustomizer;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.server.handler.GracefulHandler;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.eclipse.jetty.util.thread.QueuedThreadPool;

/** The server on one port of this machine. */
public final class DeskServer implements AutoCloseable {

    /** Largest request in bytes: a recording of 100 MB and some more. */
    public static final long LARGEST = 300_000_000L;

    private static final String THIS_MACHINE = "127.0.0.1";
    private static final int IN_MEMORY = 1_000_000;
    private static final long STOP_MILLIS = 5_000;
    private static final int THREADS = 24;
    /** A session of somebody who is known; who has to log in is shut out before. */
    static final int IDLE_SECONDS = 8 * 3600;

    private final Server server;
    private final ServerConnector connector;
    private final Optional<ServerConnector> outer;

    private DeskServer(Server server, ServerConnector connector, Optional<ServerConnector> outer) {
        this.server = server;
        this.connector = connector;
        this.outer = outer;
    }

    /**
     * An encrypted port for the local network.
     *
     * @param addresses of this machine
     * @param port to listen on; 0 for any that is free
     * @param store key and certificate, PKCS 12
     * @param secret of the store
     */
    public record Network(List<String> addresses, int port, Path store, String secret) {

        public Network {
            addresses = List.copyOf(addresses);
        }

        @Override
        public String toString() {
            return "port " + port + " for the local network";
        }
    }

    /**
     * What a server is started with; made by its {@link Maker}.
     *
     * @param port of this machine to listen on; 0 for any that is free
     * @param network encrypted port for the local network; empty if nothing listens there
     * @param publicAddress of a web server in front, which does the encryption; empty if there is none
     * @param temporary folder in which the server makes one of its own for uploads that are on their way, and deletes it
     * @param routes of all rooms
     * @param doorkeeper who tells who asks
     * @param isInvented whether the record holds invented visits
     * @param isTraining whether this is the desk of training visits
     * @param disk what uploads have to leave free
     * @param alarm what is to be looked at by the clock
     */
    public record Setup(
            int port,
            Optional<Network> network,
            Optional<URI> publicAddress,
            Path temporary,
            List<Route> routes,
            Doorkeeper doorkeeper,
            BooleanSupplier isInvented,
            boolean isTraining,
            FreeDisk disk,
            Supplier<Alarm> alarm) {

        public Setup {
            routes = List.copyOf(routes);
        }

        /**
         * Says one by one what is otherwise than usual. Usual are any free port, this machine alone, visits that are real, the
         * usual part of the disk left free, and nothing to be looked at by the clock.
         */
        public static final class Maker {

            private final List<Route> routes;
            private final Doorkeeper doorkeeper;
            private final Path temporary;
            private int port;
            private Optional<Network> network = Optional.empty();
            private Optional<URI> publicAddress = Optional.empty();
            private BooleanSupplier isInvented = () -> false;
            private boolean isTraining;
            private FreeDisk disk;
            private Supplier<Alarm> alarm = () -> Alarm.NONE;

            /** A desk with these rooms, this doorkeeper, and uploads on their way below that folder. */
            public Maker(List<Route> routes, Doorkeeper doorkeeper, Path temporary) {
                this.routes = List.copyOf(routes);
                this.doorkeeper = doorkeeper;
                this.temporary = temporary;
                this.disk = FreeDisk.of(List.of(temporary), FreeDisk.USUAL_FLOOR);
            }

            /** Listens on that port. */
            public Maker port(int number) {
                port = number;
                return this;
            }

            /** Listens in the local network too. */
            public Maker network(Optional<Network> encrypted) {
                network = encrypted;
                return this;
            }

            /** Stands behind a web server of that address. */
            public Maker publicAddress(Optional<URI> address) {
                publicAddress = address;
                return this;
            }

            /** Says on each page that the data are invented, where they are. */
            public Maker isInvented(BooleanSupplier answer) {
                isInvented = answer;
                return this;
            }

            /** Is the desk of training visits, all of them invented. */
            public Maker training() {
                isTraining = true;
                return isInvented(() -> true);
            }

            /** Leaves that much of the disk free. */
            public Maker disk(FreeDisk floor) {
                disk = floor;
                return this;
            }

            /** Has that looked at by the clock. */
            public Maker alarm(Supplier<Alarm> clock) {
                alarm = clock;
                return this;
            }

            /** What was said. */
            public Setup make() {
                return new Setup(
                        port,
                        network,
                        publicAddress,
                        temporary,
                        routes,
                        doorkeeper,
                        isInvented,
                        isTraining,
                        disk,
                        alarm);
            }
        }
    }

    /**
     * Starts a server; it answers when this returns.
     *
     * @throws IOException if the port is taken
     */
    public static DeskServer start(Setup setup) throws IOException {
        Scratch scratch = Scratch.in(setup.temporary(), setup.isTraining());
        Server server = new Server(new QueuedThreadPool(THREADS, 4));
        // the thread that stops the server at the program's end does no more than that, so it is done there
        server.addEventListener(scratch);
        HttpConfiguration configuration = new HttpConfiguration();
        configuration.setSendServerVersion(false);
        if (setup.publicAddress().isPresent()) {
            // only a web server of our own stands before this port, so what it says about the visitor is believed
            configuration.addCustomizer(forwarded());
        }
        ServerConnector connector = new ServerConnector(server, 1, 1, new HttpConnectionFactory(configuration));
        connector.setHost(THIS_MACHINE);
        connector.setPort(setup.port());
        server.addConnector(connector);
        try {
            connector.open();
            Set<String> names = new TreeSet<>(Set.of(
                    THIS_MACHINE + ":" + connector.getLocalPort(),
                    "localhost:" + connector.getLocalPort(),
                    "[::1]:" + connector.getLocalPort()));
            setup.publicAddress()
                    .ifPresent(address -> names.add(address.getAuthority().toLowerCase(Locale.ROOT)));
            Optional<ServerConnector> outer = Optional.empty();
            if (setup.network().isPresent()) {
                ServerConnector encrypted = encrypted(server, setup.network().get());
                server.addConnector(encrypted);
                encrypted.open();
                setup.network().get().addresses().forEach(ip -> names.add(ip + ":" + encrypted.getLocalPort()));
                outer = Optional.of(encrypted);
            }
            // answers that are on their way are finished before the server goes
            server.setStopTimeout(STOP_MILLIS);
            server.setStopAtShutdown(true);
            server.setHandler(new GracefulHandler(handler(setup, scratch.folder(), names)));
            server.start();
            return new DeskServer(server, connector, outer);
        } catch (IOException taken) {
            scratch.delete();
            throw taken;
        } catch (Exception broken) {
            scratch.delete();
            throw new IOException("the server could not be started: " + broken.getMessage(), broken);
        }
    }

    private static ServletContextHandler handler(Setup setup, Path scratch, Set<String> names) {
        Guard guard = new Guard(names);
        ServletContextHandler context = new ServletContextHandler(ServletContextHandler.SESSIONS);
        context.getSessionHandler().setHttpOnly(true);
        context.getSessionHandler().setSameSite(HttpCookie.SameSite.STRICT);
        context.getSessionHandler().setSessionCookie(cookie(setup));
        context.getSessionHandler().setSecureRequestOnly(true);
        context.getSessionHandler().setMaxInactiveInterval(IDLE_SECONDS);
        ServletHolder holder = new ServletHolder(new DeskServlet(setup, guard));
        holder.getRegistration()
                .setMultipartConfig(new MultipartConfigElement(scratch.toString(), LARGEST, LARGEST, IN_MEMORY));
        context.addServlet(holder, "/*");
        return context;
    }

    /**
     * Behind encryption a browser can be told by the name that nobody else may set the cookie; a laptop speaks plain HTTP. Cookies
     * know no ports: the desk of training, on another one, must not take the session of this.
     */
    private static String cookie(Setup setup) {
        if (setup.isTraining()) {
            return "steamwright-training";
        }
        boolean isEncrypted = setup.publicAddress()
                .map(URI::getScheme)
                .filter("https"::equalsIgnoreCase)
                .isPresent();
        return (isEncrypted ? "__Host-" : "") + "steamwright-session";
    }

    /** Scheme and visitor's address alone are believed: they are what our how-to makes the web server overwrite. */
    private static ForwardedRequestCustomizer forwarded() {
        ForwardedRequestCustomizer customizer = new ForwardedRequestCustomizer();
        String nothing = "X-Steamwright-Not-Used";
        customizer.setForwardedHeader(nothing);
        customizer.setForwardedHostHeader(nothing);
        customizer.setForwardedServerHeader(nothing);
        customizer.setForwardedPortHeader(nothing);
        customizer.setForwardedHttpsHeader(nothing);
        customizer.setForwardedCipherSuiteHeader(nothing);
        customizer.setForwardedSslSessionIdHeader(nothing);
        return customizer;
    }

    private static ServerConnector encrypted(Server server, Network network) {
        SslContextFactory.Server keys = new SslContextFactory.Server();
        keys.setKeyStorePath(network.store().toUri().toString());
        keys.setKeyStorePassword(network.secret());
        keys.setIncludeProtocols("TLSv1.3", "TLSv1.2");
        HttpConfiguration configuration = new HttpConfiguration();
        configuration.setSendServerVersion(false);
        // addresses are numbers here, which a certificate's names are never matched with by the server
        configuration.addCustomizer(new SecureRequestCustomizer(false));
        ServerConnector connector = new ServerConnector(
                server, 1, 1, new SslConnectionFactory(keys, "http/1.1"), new HttpConnectionFactory(configuration));
        connector.setPort(network.port());
        return connector;
    }

    /** Where the system keeps what is there for a while. */
    public static Path temporary() {
        return Path.of(System.getProperty("java.io.tmpdir", "."));
    }

    /** The encrypted port for the local network. */
    public OptionalInt networkPort() {
        return outer.map(one -> OptionalInt.of(one.getLocalPort())).orElseGet(OptionalInt::empty);
    }

    /** The port that it listens on. */
    public int port() {
        return connector.getLocalPort();
    }

    /** Waits until the server is stopped. */
    public void join() throws InterruptedException {
        server.join();
    }

    @Override
    public void close() throws IOException {
        try {
            server.stop();
        } catch (Exception broken) {
            throw new IOException("the server could not be stopped: " + broken.getMessage(), broken);
        }
    }
}

package org.steamwright.desk.tablet;

import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.ServerSocket;
import java.net.SocketException;
import java.util.List;

/** Where this laptop stands in a network. */
public final class LocalNetwork {

    private LocalNetwork() {}

    /**
     * Addresses of this machine that others in the same network may reach, in order.
     *
     * @throws SocketException if the system does not tell
     */
    public static List<String> addresses() throws SocketException {
        return NetworkInterface.networkInterfaces()
                .filter(LocalNetwork::isUp)
                .flatMap(NetworkInterface::inetAddresses)
                .filter(address -> address instanceof Inet4Address)
                .map(InetAddress::getHostAddress)
                .sorted()
                .toList();
    }

    /**
     * A port that nobody listens on. It is known before the desk listens there, because the page for tablets and the names by
     * which the desk answers are made with it.
     *
     * @throws IOException if the system has none
     */
    public static int freePort() throws IOException {
        try (ServerSocket free = new ServerSocket(0)) {
            return free.getLocalPort();
        }
    }

    private static boolean isUp(NetworkInterface one) {
        try {
            return one.isUp() && !one.isLoopback();
        } catch (SocketException gone) {
            return false;
        }
    }
}

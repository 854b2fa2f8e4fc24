package org.steamwright.desk.tablet;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
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

    private static boolean isUp(NetworkInterface one) {
        try {
            return one.isUp() && !one.isLoopback();
        } catch (SocketException gone) {
            return false;
        }
    }
}

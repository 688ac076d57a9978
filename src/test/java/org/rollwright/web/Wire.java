package org.rollwright.web;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.rollwright.web.guard.Lan;

/// Requests as written, without what a client library would add or mend.
final class Wire {
    private static final int PATIENCE_MILLIS = 20_000;

    private Wire() {}

    static int port(TestBench bench) {
        return Integer.parseInt(bench.address.substring(bench.address.lastIndexOf(':') + 1));
    }

    static Socket open(int port) throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
        socket.setSoTimeout(PATIENCE_MILLIS);
        return socket;
    }

    /// Sends and reads until the server closes.
    ///
    /// @param request lines that end with `\n`; they are sent with the ends HTTP wants
    static String ask(int port, String request) throws IOException {
        try (Socket socket = open(port)) {
            return ask(socket, request);
        }
    }

    static String ask(Socket socket, String request) throws IOException {
        return askAsIs(socket, request.replace("\n", "\r\n"));
    }

    static String askAsIs(int port, String request) throws IOException {
        try (Socket socket = open(port)) {
            return askAsIs(socket, request);
        }
    }

    private static String askAsIs(Socket socket, String request) throws IOException {
        OutputStream out = socket.getOutputStream();
        out.write(request.getBytes(StandardCharsets.UTF_8));
        out.flush();
        return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }

    /// A request for a path, closed after it.
    ///
    /// @param more header lines, each after a `\n`
    static String ask(int port, String what, String more, String body) throws IOException {
        return ask(
                port,
                what + " HTTP/1.1\nHost: 127.0.0.1:" + port + more + "\nConnection: close"
                        + (body.isEmpty() ? "" : "\nContent-Length: " + body.getBytes(StandardCharsets.UTF_8).length)
                        + "\n\n" + body);
    }

    static int status(String answer) {
        return answer.startsWith("HTTP/1.") ? Integer.parseInt(answer.split(" ")[1]) : 0;
    }

    /// A connection to the port for phones, by a client that trusts exactly its certificate.
    ///
    /// @param from the address of this computer it comes from
    static Socket secret(Lan lan, String from, int port) throws GeneralSecurityException, IOException {
        KeyStore trusted = KeyStore.getInstance("PKCS12");
        trusted.load(null, null);
        trusted.setCertificateEntry("lan", lan.keys().getCertificate("lan"));
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trust.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trust.getTrustManagers(), null);
        String host = lan.addresses().getFirst();
        Socket bare = new Socket();
        bare.bind(new InetSocketAddress(from, 0));
        bare.connect(new InetSocketAddress(host, port));
        bare.setSoTimeout(PATIENCE_MILLIS);
        return context.getSocketFactory().createSocket(bare, host, port, true);
    }
}

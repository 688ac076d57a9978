package org.rollwright.web.guard;

import static org.rollwright.text.Texts.t;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.KeyStore;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.security.spec.ECGenParameterSpec;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

/// What lets a phone in the same network reach the pages: a certificate made here, kept in the data folder, and
/// a word that is new at every start. Without the word no page answers.
///
/// @param word 128 random bits as letters and digits
/// @param keys the key and certificate, under the empty password
/// @param addresses of this computer in its networks
/// @param fingerprint SHA-256 of the certificate, to compare with what the phone shows
public record Lan(String word, KeyStore keys, List<String> addresses, String fingerprint) {
    public static final String COOKIE = "rollwright-lan";

    private static final char[] NONE = new char[0];
    private static final String ALIAS = "lan";
    private static final String FILE = "lan.p12";
    private static final Duration LEAST_LEFT = Duration.ofDays(30);
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final String LETTERS = "abcdefghijkmnpqrstuvwxyz23456789";
    private static final int LENGTH = 26;

    /// Why the network cannot be used. The message is for a person.
    public static final class Unusable extends Exception {
        private static final long serialVersionUID = 1L;

        Unusable(String sentence) {
            super(sentence, null, false, false);
        }
    }

    public Lan {
        addresses = List.copyOf(addresses);
    }

    /// Takes the certificate of the folder, or makes one when there is none, it ends soon, or this computer has
    /// another address now.
    ///
    /// @throws Unusable when this computer is in no network, or the folder cannot be written to
    public static Lan open(Path folder, Instant now) throws Unusable {
        return open(folder, now, ownAddresses());
    }

    public static Lan open(Path folder, Instant now, List<String> addresses) throws Unusable {
        if (addresses.isEmpty()) {
            throw new Unusable(t("lan.no-network"));
        }
        try {
            KeyStore keys = kept(folder.resolve(FILE), addresses, now);
            byte[] hash = MessageDigest.getInstance("SHA-256")
                    .digest(keys.getCertificate(ALIAS).getEncoded());
            return new Lan(
                    newWord(),
                    keys,
                    addresses,
                    HexFormat.ofDelimiter(":").withUpperCase().formatHex(hash));
        } catch (GeneralSecurityException | IOException e) {
            throw new Unusable(t("lan.no-certificate", folder));
        }
    }

    private static String newWord() {
        StringBuilder word = new StringBuilder();
        for (int i = 0; i < LENGTH; i++) {
            word.append(LETTERS.charAt(RANDOM.nextInt(LETTERS.length())));
        }
        return word.toString();
    }

    /// Addresses of this computer in private networks; nothing beyond them should reach it.
    public static List<String> ownAddresses() {
        List<String> addresses = new ArrayList<>();
        try {
            for (NetworkInterface network : NetworkInterface.networkInterfaces().toList()) {
                if (network.isUp() && !network.isLoopback()) {
                    network.inetAddresses()
                            .filter(Inet4Address.class::isInstance)
                            .filter(address -> address.isSiteLocalAddress() || address.isLinkLocalAddress())
                            .map(InetAddress::getHostAddress)
                            .forEach(addresses::add);
                }
            }
        } catch (SocketException e) {
            // a system that does not tell is one without a network
        }
        return addresses;
    }

    private static KeyStore kept(Path file, List<String> addresses, Instant now)
            throws GeneralSecurityException, IOException {
        KeyStore keys = KeyStore.getInstance("PKCS12");
        if (Files.exists(file)) {
            try (InputStream in = Files.newInputStream(file)) {
                keys.load(in, NONE);
                if (keys.getCertificate(ALIAS) instanceof X509Certificate known
                        && known.getNotAfter().toInstant().isAfter(now.plus(LEAST_LEFT))
                        && names(known).containsAll(addresses)) {
                    return keys;
                }
            } catch (IOException e) {
                // not readable: a new one is made
            }
        }
        keys.load(null, NONE);
        KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
        generator.initialize(new ECGenParameterSpec("secp256r1"), RANDOM);
        KeyPair pair = generator.generateKeyPair();
        keys.setKeyEntry(ALIAS, pair.getPrivate(), NONE, new Certificate[] {LanCertificate.of(pair, addresses, now)});
        keep(keys, file);
        return keys;
    }

    private static List<String> names(X509Certificate certificate) throws GeneralSecurityException {
        var names = certificate.getSubjectAlternativeNames();
        return names == null
                ? List.of()
                : names.stream().map(name -> String.valueOf(name.get(1))).toList();
    }

    /// Only the owner may read the key.
    private static void keep(KeyStore keys, Path file) throws GeneralSecurityException, IOException {
        Path part = file.resolveSibling(FILE + ".part");
        Files.deleteIfExists(part);
        if (Files.getFileStore(file.getParent()).supportsFileAttributeView("posix")) {
            Files.createFile(part, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
        }
        try (OutputStream out = Files.newOutputStream(part)) {
            keys.store(out, NONE);
        }
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    }

    /// Whether a text is the word; takes as long for a wrong one as for a nearly right one.
    boolean is(String text) {
        return MessageDigest.isEqual(word.getBytes(StandardCharsets.UTF_8), text.getBytes(StandardCharsets.UTF_8));
    }

    /// The address to open on the phone.
    public String address(int port) {
        return "https://" + addresses.getFirst() + ":" + port + "/join?word=" + word;
    }
}

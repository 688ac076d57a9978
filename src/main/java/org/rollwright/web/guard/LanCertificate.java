package org.rollwright.web.guard;

import java.io.IOException;
import java.math.BigInteger;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.Date;
import java.util.List;
import org.bouncycastle.asn1.x500.X500Name;
import org.bouncycastle.asn1.x509.BasicConstraints;
import org.bouncycastle.asn1.x509.Extension;
import org.bouncycastle.asn1.x509.GeneralName;
import org.bouncycastle.asn1.x509.GeneralNames;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cert.jcajce.JcaX509v3CertificateBuilder;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;

/// Makes the certificate of [Lan]. A class of its own, so that a start without phones does not load the library
/// for it, whose signed jar takes a fifth of a second to verify.
final class LanCertificate {
    /// Browsers refuse certificates that are valid for more than 398 days (common practice).
    private static final Duration VALID = Duration.ofDays(397);
    private static final SecureRandom RANDOM = new SecureRandom();

    private LanCertificate() {}

    /// @param addresses IP addresses it is for
    static X509Certificate of(KeyPair pair, List<String> addresses, Instant now)
            throws GeneralSecurityException, IOException {
        try {
            X500Name name = new X500Name("CN=Rollwright on this computer");
            JcaX509v3CertificateBuilder builder = new JcaX509v3CertificateBuilder(
                    name,
                    new BigInteger(120, RANDOM).add(BigInteger.ONE),
                    Date.from(now.minus(Duration.ofDays(1))),
                    Date.from(now.plus(VALID)),
                    name,
                    pair.getPublic());
            builder.addExtension(Extension.basicConstraints, true, new BasicConstraints(false));
            builder.addExtension(
                    Extension.subjectAlternativeName,
                    false,
                    new GeneralNames(addresses.stream()
                            .map(address -> new GeneralName(GeneralName.iPAddress, address))
                            .toArray(GeneralName[]::new)));
            return new JcaX509CertificateConverter()
                    .getCertificate(
                            builder.build(new JcaContentSignerBuilder("SHA256withECDSA").build(pair.getPrivate())));
        } catch (OperatorCreationException e) {
            throw new GeneralSecurityException("this Java cannot sign with elliptic curves", e);
        }
    }
}

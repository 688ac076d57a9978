# Sourced by ./run, ./test and what is in bin, bench and packaging: sets JAVA_HOME to a JDK of release 25 or newer, or says what is missing.
release_of() {
    [ -x "$1/bin/javac" ] && sed -n 's/^JAVA_VERSION="\([0-9]*\).*/\1/p' "$1/release" 2>/dev/null
}
find_jdk() {
    for candidate in "${JAVA_HOME:-}" \
        "$(dirname "$(dirname "$(readlink -f "$(command -v javac 2>/dev/null || echo /none)")")")" \
        /usr/lib/jvm/* /opt/java/* /opt/jdk* /Library/Java/JavaVirtualMachines/*/Contents/Home "$HOME"/.jdks/* "$HOME"/.sdkman/candidates/java/*; do
        release=$(release_of "$candidate" || true)
        if [ -n "$release" ] && [ "$release" -ge 25 ]; then
            JAVA_HOME=$candidate
            export JAVA_HOME
            return 0
        fi
    done
    echo "Rollwright needs a Java development kit (JDK) of release 25 or newer, and none was found in JAVA_HOME, on the PATH or in the usual folders." >&2
    echo "Install one: on Debian 'apt-get install openjdk-25-jdk', on macOS 'brew install --cask temurin@25', on Windows 'winget install EclipseAdoptium.Temurin.25.JDK'." >&2
    echo "Or name one that is there: JAVA_HOME=/path/to/jdk-25 ./run" >&2
    return 1
}
find_jdk || exit 1

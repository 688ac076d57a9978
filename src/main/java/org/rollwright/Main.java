package org.rollwright;

final class Main {
    private Main() {}
}

package org.rollwright.entry.narration;

/// A find as the best path tells it, while what is said of it later is still being added. Used by one thread.
final class Building {
    /// The share of all paths by what they do at its date.
    final double[] shares;
    final int word;
    Mention.Coin coin;
    Mention.Said said;
    String code;
    /// Whether the mint only follows from one that is not there.
    boolean faint;
    int end;
    int count;
    final int from;
    int until;

    Building(Mention.Coin coin, int from, double[] shares) {
        this.coin = coin;
        this.word = coin.word();
        this.shares = shares;
        this.said = coin.said();
        this.code = coin.code();
        this.end = coin.end();
        this.count = coin.count();
        this.from = from;
        this.until = coin.end();
    }
}

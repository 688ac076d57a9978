/* A disk that fails on purpose: preloaded into a process, it lets the first writes to the store's files pass and then
   answers ENOSPC or EIO, or writes half and then fails (torn), once or for good.
   FAULT_KIND: enospc, eio, torn, fsync. FAULT_AT: the first call that fails. FAULT_CALLS: how many fail from there on, all if
   left out. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

static int calls;

static int ours(int fd) {
    char link[64], path[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t n = readlink(link, path, sizeof path - 1);
    if (n <= 0) return 0;
    path[n] = 0;
    return strstr(path, "rollwright.db") != NULL;
}

/* Whether this call fails; writing tells a write from a synchronisation. */
static int fails(int fd, int writing) {
    const char *kind = getenv("FAULT_KIND"), *at = getenv("FAULT_AT"), *calls_failing = getenv("FAULT_CALLS");
    if (!kind || !at || !ours(fd)) return 0;
    int sync = strcmp(kind, "fsync") == 0;
    if (sync == writing) return 0;
    int call = __sync_add_and_fetch(&calls, 1);
    int wanted = atoi(at);
    return call >= wanted && (!calls_failing || call < wanted + atoi(calls_failing));
}

static int code(void) {
    return strcmp(getenv("FAULT_KIND"), "enospc") == 0 ? ENOSPC : EIO;
}

static int torn(void) {
    return strcmp(getenv("FAULT_KIND"), "torn") == 0;
}

ssize_t write(int fd, const void *data, size_t n) {
    static ssize_t (*real)(int, const void *, size_t);
    if (!real) real = dlsym(RTLD_NEXT, "write");
    if (fails(fd, 1)) {
        if (torn()) real(fd, data, n / 2);
        errno = code();
        return -1;
    }
    return real(fd, data, n);
}

ssize_t pwrite64(int fd, const void *data, size_t n, off64_t at) {
    static ssize_t (*real)(int, const void *, size_t, off64_t);
    if (!real) real = dlsym(RTLD_NEXT, "pwrite64");
    if (fails(fd, 1)) {
        if (torn()) real(fd, data, n / 2, at);
        errno = code();
        return -1;
    }
    return real(fd, data, n, at);
}

ssize_t pwrite(int fd, const void *data, size_t n, off_t at) {
    return pwrite64(fd, data, n, at);
}

int fsync(int fd) {
    static int (*real)(int);
    if (!real) real = dlsym(RTLD_NEXT, "fsync");
    if (fails(fd, 0)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

int fdatasync(int fd) {
    static int (*real)(int);
    if (!real) real = dlsym(RTLD_NEXT, "fdatasync");
    if (fails(fd, 0)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

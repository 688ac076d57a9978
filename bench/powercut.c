/* A disk that can be cut from its power afterwards: preloaded into a process, this library lets every call through and
   writes down, in order, each one that changes files below a folder, each synchronisation, and each line acknowledged on
   the standard output. From that a test builds what a disk may hold after a power cut at any of these moments.
   POWERCUT_FOLDER: the folder, absolute. POWERCUT_LOG: the file written to, outside of it.

   A record: u32 length of what follows, u8 kind, i32 fd, i64 a, i64 b, u32 length of the first text, first text, second
   text to the end; little-endian. Kinds and what they hold are those of the switch in PowerCutLog.java. */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

/* Aliases of one function under its 64-bit name need types without their 32-bit twins: x86-64 and ARM64 Linux. */
_Static_assert(sizeof(off_t) == 8, "64-bit offsets only");

#define MOST_FDS 4096
#define REAL(name) (find((void **)&real_##name, #name), real_##name)

/* An open file below the folder, known by its inode so that a number used again for something else is noticed. */
static struct { int used, synced; dev_t dev; ino_t ino; } known[MOST_FDS];
static char folder[PATH_MAX];
static size_t folder_length;
static int log_fd = -1;
static int64_t records;
static pthread_mutex_t lock = PTHREAD_RECURSIVE_MUTEX_INITIALIZER_NP;

static ssize_t (*real_write)(int, const void *, size_t);
static ssize_t (*real_pwrite)(int, const void *, size_t, off_t);
static ssize_t (*real_writev)(int, const struct iovec *, int);
static ssize_t (*real_pwritev)(int, const struct iovec *, int, off_t);
static int (*real_fsync)(int), (*real_fdatasync)(int), (*real_close)(int);
static int (*real_ftruncate)(int, off_t), (*real_truncate)(const char *, off_t);
static int (*real_fallocate)(int, int, off_t, off_t), (*real_posix_fallocate)(int, off_t, off_t);
static int (*real_openat)(int, const char *, int, ...);
static int (*real_renameat2)(int, const char *, int, const char *, unsigned);
static int (*real_unlinkat)(int, const char *, int), (*real_mkdirat)(int, const char *, mode_t);
static int (*real_linkat)(int, const char *, int, const char *, int), (*real_symlinkat)(const char *, int, const char *);
static int (*real_dup)(int), (*real_dup2)(int, int), (*real_dup3)(int, int, int);
static ssize_t (*real_copy_file_range)(int, off_t *, int, off_t *, size_t, unsigned);
static ssize_t (*real_sendfile)(int, int, off_t *, size_t);
static void *(*real_mmap)(void *, size_t, int, int, int, off_t);

static void find(void **function, const char *name) {
    if (!*function) *function = dlsym(RTLD_NEXT, name);
}

enum { OPEN = 1, CLOSE, WRITE, TRUNCATE, SYNC, RENAME, UNLINK, MKDIR, LINK, SAID, MAPPED, DUP, UNKNOWN };

static void give_up(const char *why) {
    fprintf(stderr, "powercut: %s\n", why);
    abort();
}

__attribute__((constructor)) static void start(void) {
    const char *where = getenv("POWERCUT_FOLDER"), *file = getenv("POWERCUT_LOG");
    if (!where || !file) return;
    snprintf(folder, sizeof folder, "%s", where);
    folder_length = strlen(folder);
    int fd = REAL(openat)(AT_FDCWD, file, O_CREAT | O_WRONLY | O_APPEND, 0600);
    /* far up, so that no number the process counts on changes */
    log_fd = fd < 0 ? -1 : fcntl(fd, F_DUPFD_CLOEXEC, 512);
    if (log_fd < 0) give_up("the log cannot be written");
    REAL(close)(fd);
}

static void all_of(const void *data, size_t n) {
    const char *at = data;
    while (n > 0) {
        ssize_t done = REAL(write)(log_fd, at, n);
        if (done < 0 && errno == EINTR) continue;
        if (done <= 0) give_up("the log cannot be written");
        at += done;
        n -= (size_t)done;
    }
}

static void note(uint8_t kind, int32_t fd, int64_t a, int64_t b, const void *first, size_t n1, const void *second, size_t n2) {
    if (log_fd < 0) return;
    int kept = errno;
    char head[4 + 1 + 4 + 8 + 8 + 4];
    uint32_t length = (uint32_t)(sizeof head - 4 + n1 + n2), one = (uint32_t)n1;
    memcpy(head, &length, 4);
    head[4] = (char)kind;
    memcpy(head + 5, &fd, 4);
    memcpy(head + 9, &a, 8);
    memcpy(head + 17, &b, 8);
    memcpy(head + 25, &one, 4);
    all_of(head, sizeof head);
    all_of(first, n1);
    all_of(second, n2);
    records++;
    errno = kept;
}

static void note_paths(uint8_t kind, int32_t fd, int64_t a, const char *one, const char *two) {
    note(kind, fd, a, 0, one, strlen(one), two, two ? strlen(two) : 0);
}

/* The absolute path; whether it lies below the folder. */
static int below(int at, const char *path, char out[PATH_MAX]) {
    if (log_fd < 0 || !path) return 0;
    if (path[0] == '/') {
        snprintf(out, PATH_MAX, "%s", path);
    } else {
        char base[PATH_MAX / 2], link[64];
        if (at == AT_FDCWD) {
            if (!getcwd(base, sizeof base)) return 0;
        } else {
            snprintf(link, sizeof link, "/proc/self/fd/%d", at);
            ssize_t n = readlink(link, base, sizeof base - 1);
            if (n < 0) return 0;
            base[n] = 0;
        }
        snprintf(out, PATH_MAX, "%s/%s", base, path);
    }
    return strncmp(out, folder, folder_length) == 0 && (out[folder_length] == '/' || out[folder_length] == 0);
}

static int ours(int fd) {
    if (log_fd < 0 || fd < 0 || fd >= MOST_FDS || !known[fd].used) return 0;
    struct stat now;
    if (fstat(fd, &now) || now.st_dev != known[fd].dev || now.st_ino != known[fd].ino) {
        known[fd].used = 0;
        return 0;
    }
    return 1;
}

static void wrote(int fd, const void *data, ssize_t n, off_t at) {
    if (n <= 0) return;
    note(WRITE, fd, at, 0, NULL, 0, data, (size_t)n);
    if (known[fd].synced) note(SYNC, fd, records, 0, NULL, 0, NULL, 0);
}

/* Where the next write goes. */
static off_t place(int fd) {
    struct stat now;
    return (fcntl(fd, F_GETFL) & O_APPEND) && !fstat(fd, &now) ? now.st_size : lseek(fd, 0, SEEK_CUR);
}

#define LOCKED(type, expression) pthread_mutex_lock(&lock); type result = (expression); pthread_mutex_unlock(&lock); return result

static ssize_t do_write(int fd, const void *data, size_t n) {
    if (!ours(fd)) {
        ssize_t done = REAL(write)(fd, data, n);
        if (fd == 1 && done > 0) note(SAID, fd, 0, 0, NULL, 0, data, (size_t)done);
        return done;
    }
    off_t at = place(fd);
    ssize_t done = REAL(write)(fd, data, n);
    wrote(fd, data, done, at);
    return done;
}

/* A write to what is not ours may wait for another thread (a pipe), and must not keep the others from the disk. */
ssize_t write(int fd, const void *data, size_t n) {
    if (log_fd < 0 || (fd != 1 && (fd < 0 || fd >= MOST_FDS || !known[fd].used))) return REAL(write)(fd, data, n);
    LOCKED(ssize_t, do_write(fd, data, n));
}

static ssize_t do_pwrite(int fd, const void *data, size_t n, off_t at) {
    ssize_t done = REAL(pwrite)(fd, data, n, at);
    if (ours(fd)) wrote(fd, data, done, at);
    return done;
}
ssize_t pwrite(int fd, const void *data, size_t n, off_t at) { LOCKED(ssize_t, do_pwrite(fd, data, n, at)); }
ssize_t pwrite64(int fd, const void *data, size_t n, off64_t at) { LOCKED(ssize_t, do_pwrite(fd, data, n, at)); }

static void wrote_parts(int fd, const struct iovec *parts, int count, ssize_t done, off_t at) {
    for (int i = 0; i < count && done > 0; i++) {
        ssize_t n = (ssize_t)parts[i].iov_len < done ? (ssize_t)parts[i].iov_len : done;
        wrote(fd, parts[i].iov_base, n, at);
        at += n;
        done -= n;
    }
}

static ssize_t do_writev(int fd, const struct iovec *parts, int count) {
    off_t at = ours(fd) ? place(fd) : 0;
    ssize_t done = REAL(writev)(fd, parts, count);
    if (ours(fd)) wrote_parts(fd, parts, count, done, at);
    return done;
}
ssize_t writev(int fd, const struct iovec *parts, int count) {
    if (log_fd < 0 || fd < 0 || fd >= MOST_FDS || !known[fd].used) return REAL(writev)(fd, parts, count);
    LOCKED(ssize_t, do_writev(fd, parts, count));
}

static ssize_t do_pwritev(int fd, const struct iovec *parts, int count, off_t at) {
    ssize_t done = REAL(pwritev)(fd, parts, count, at);
    if (ours(fd)) wrote_parts(fd, parts, count, done, at);
    return done;
}
ssize_t pwritev(int fd, const struct iovec *parts, int count, off_t at) { LOCKED(ssize_t, do_pwritev(fd, parts, count, at)); }
ssize_t pwritev64(int fd, const struct iovec *parts, int count, off64_t at) { LOCKED(ssize_t, do_pwritev(fd, parts, count, at)); }

/* What was written before the call is on the disk when it returns; what others write meanwhile need not be. */
static int synced(int fd, int (*call)(int)) {
    pthread_mutex_lock(&lock);
    int mine = ours(fd);
    int64_t before = records;
    pthread_mutex_unlock(&lock);
    int result = call(fd);
    if (mine && result == 0) {
        pthread_mutex_lock(&lock);
        note(SYNC, fd, before, 0, NULL, 0, NULL, 0);
        pthread_mutex_unlock(&lock);
    }
    return result;
}
int fsync(int fd) { return synced(fd, REAL(fsync)); }
int fdatasync(int fd) { return synced(fd, REAL(fdatasync)); }

static int do_ftruncate(int fd, off_t size) {
    int result = REAL(ftruncate)(fd, size);
    if (result == 0 && ours(fd)) note(TRUNCATE, fd, size, 0, NULL, 0, NULL, 0);
    return result;
}
int ftruncate(int fd, off_t size) { LOCKED(int, do_ftruncate(fd, size)); }
int ftruncate64(int fd, off64_t size) { LOCKED(int, do_ftruncate(fd, size)); }

static int do_truncate(const char *path, off_t size) {
    char full[PATH_MAX];
    int result = REAL(truncate)(path, size);
    if (result == 0 && below(AT_FDCWD, path, full)) note_paths(TRUNCATE, -1, size, full, NULL);
    return result;
}
int truncate(const char *path, off_t size) { LOCKED(int, do_truncate(path, size)); }
int truncate64(const char *path, off64_t size) { LOCKED(int, do_truncate(path, size)); }

/* Room taken ahead makes a file longer, or nothing that a reader sees. */
static int allocated(int fd, int mode, int result) {
    if (result == 0 && ours(fd)) {
        struct stat now;
        if (mode & ~FALLOC_FL_KEEP_SIZE) note(UNKNOWN, fd, mode, 0, NULL, 0, "fallocate", 9);
        else if (!mode && !fstat(fd, &now)) note(TRUNCATE, fd, now.st_size, 0, NULL, 0, NULL, 0);
    }
    return result;
}
int fallocate(int fd, int mode, off_t at, off_t n) { LOCKED(int, allocated(fd, mode, REAL(fallocate)(fd, mode, at, n))); }
int fallocate64(int fd, int mode, off64_t at, off64_t n) { return fallocate(fd, mode, at, n); }
int posix_fallocate(int fd, off_t at, off_t n) { LOCKED(int, allocated(fd, 0, REAL(posix_fallocate)(fd, at, n))); }
int posix_fallocate64(int fd, off64_t at, off64_t n) { return posix_fallocate(fd, at, n); }

static int do_open(int at, const char *path, int flags, mode_t mode) {
    char full[PATH_MAX];
    if (!below(at, path, full)) return REAL(openat)(at, path, flags, mode);
    struct stat before, now;
    int was = lstat(full, &before) == 0;
    int fd = REAL(openat)(at, path, flags, mode);
    if (fd < 0) return fd;
    if (fd >= MOST_FDS) give_up("too many open files");
    fstat(fd, &now);
    known[fd].used = 1;
    known[fd].synced = (flags & (O_SYNC | O_DSYNC)) != 0;
    known[fd].dev = now.st_dev;
    known[fd].ino = now.st_ino;
    if ((flags & O_TMPFILE) == O_TMPFILE) note_paths(UNKNOWN, fd, 0, full, "O_TMPFILE");
    note(OPEN, fd, !was && (flags & O_CREAT), was && (flags & O_TRUNC) && before.st_size > 0, full, strlen(full), NULL, 0);
    return fd;
}

static mode_t mode_of(int flags, va_list list) {
    return flags & (O_CREAT | O_TMPFILE) ? va_arg(list, mode_t) : 0;
}
#define OPENED(at) va_list list; va_start(list, flags); mode_t mode = mode_of(flags, list); va_end(list); LOCKED(int, do_open(at, path, flags, mode))
int open(const char *path, int flags, ...) { OPENED(AT_FDCWD); }
int open64(const char *path, int flags, ...) { OPENED(AT_FDCWD); }
int openat(int at, const char *path, int flags, ...) { OPENED(at); }
int openat64(int at, const char *path, int flags, ...) { OPENED(at); }
int creat(const char *path, mode_t mode) { LOCKED(int, do_open(AT_FDCWD, path, O_CREAT | O_WRONLY | O_TRUNC, mode)); }
int creat64(const char *path, mode_t mode) { return creat(path, mode); }
int __open_2(const char *path, int flags) { LOCKED(int, do_open(AT_FDCWD, path, flags, 0)); }
int __open64_2(const char *path, int flags) { return __open_2(path, flags); }
int __openat_2(int at, const char *path, int flags) { LOCKED(int, do_open(at, path, flags, 0)); }
int __openat64_2(int at, const char *path, int flags) { return __openat_2(at, path, flags); }

static int do_close(int fd) {
    if (fd >= 0 && fd == log_fd) return 0;
    if (ours(fd)) {
        note(CLOSE, fd, 0, 0, NULL, 0, NULL, 0);
        known[fd].used = 0;
    }
    return REAL(close)(fd);
}
int close(int fd) {
    if (log_fd < 0 || fd < 0 || fd >= MOST_FDS || (!known[fd].used && fd != log_fd)) return REAL(close)(fd);
    LOCKED(int, do_close(fd));
}

static int doubled(int from, int to) {
    if (to >= 0 && to < MOST_FDS) {
        if (ours(from)) {
            known[to] = known[from];
            note(DUP, from, to, 0, NULL, 0, NULL, 0);
        } else {
            known[to].used = 0;
        }
    }
    return to;
}
int dup(int fd) { LOCKED(int, doubled(fd, REAL(dup)(fd))); }
int dup2(int fd, int to) { LOCKED(int, doubled(fd, REAL(dup2)(fd, to))); }
int dup3(int fd, int to, int flags) { LOCKED(int, doubled(fd, REAL(dup3)(fd, to, flags))); }

static int do_rename(int at, const char *from, int at2, const char *to, unsigned flags) {
    char one[PATH_MAX], two[PATH_MAX];
    int from_here = below(at, from, one), to_here = below(at2, to, two);
    int result = REAL(renameat2)(at, from, at2, to, flags);
    if (result == 0 && from_here != to_here) note_paths(UNKNOWN, -1, 0, one, "renamed over the edge of the folder");
    if (result == 0 && from_here && to_here) note_paths(flags & RENAME_EXCHANGE ? UNKNOWN : RENAME, -1, 0, one, two);
    return result;
}
int rename(const char *from, const char *to) { LOCKED(int, do_rename(AT_FDCWD, from, AT_FDCWD, to, 0)); }
int renameat(int at, const char *from, int at2, const char *to) { LOCKED(int, do_rename(at, from, at2, to, 0)); }
int renameat2(int at, const char *from, int at2, const char *to, unsigned flags) { LOCKED(int, do_rename(at, from, at2, to, flags)); }

static int do_unlink(int at, const char *path, int flags) {
    char full[PATH_MAX];
    int here = below(at, path, full);
    int result = REAL(unlinkat)(at, path, flags);
    if (result == 0 && here) note_paths(UNLINK, -1, 0, full, NULL);
    return result;
}
int unlink(const char *path) { LOCKED(int, do_unlink(AT_FDCWD, path, 0)); }
int unlinkat(int at, const char *path, int flags) { LOCKED(int, do_unlink(at, path, flags)); }
int rmdir(const char *path) { LOCKED(int, do_unlink(AT_FDCWD, path, AT_REMOVEDIR)); }
int remove(const char *path) {
    struct stat is;
    return lstat(path, &is) == 0 && S_ISDIR(is.st_mode) ? rmdir(path) : unlink(path);
}

static int do_mkdir(int at, const char *path, mode_t mode) {
    char full[PATH_MAX];
    int here = below(at, path, full);
    int result = REAL(mkdirat)(at, path, mode);
    if (result == 0 && here) note_paths(MKDIR, -1, 0, full, NULL);
    return result;
}
int mkdir(const char *path, mode_t mode) { LOCKED(int, do_mkdir(AT_FDCWD, path, mode)); }
int mkdirat(int at, const char *path, mode_t mode) { LOCKED(int, do_mkdir(at, path, mode)); }

static int do_link(int at, const char *from, int at2, const char *to, int flags) {
    char one[PATH_MAX], two[PATH_MAX];
    int from_here = below(at, from, one), to_here = below(at2, to, two);
    int result = REAL(linkat)(at, from, at2, to, flags);
    if (result == 0 && to_here) note_paths(from_here ? LINK : UNKNOWN, -1, 0, one, two);
    return result;
}
int link(const char *from, const char *to) { LOCKED(int, do_link(AT_FDCWD, from, AT_FDCWD, to, 0)); }
int linkat(int at, const char *from, int at2, const char *to, int flags) { LOCKED(int, do_link(at, from, at2, to, flags)); }

static int do_symlink(const char *what, int at, const char *path) {
    char full[PATH_MAX];
    int here = below(at, path, full);
    int result = REAL(symlinkat)(what, at, path);
    if (result == 0 && here) note_paths(UNKNOWN, -1, 0, full, "symlink");
    return result;
}
int symlink(const char *what, const char *path) { LOCKED(int, do_symlink(what, AT_FDCWD, path)); }
int symlinkat(const char *what, int at, const char *path) { LOCKED(int, do_symlink(what, at, path)); }

/* What was copied within the kernel is read again from its source, which need not be open for writing. */
static void copied(int from, off_t source, int to, off_t target, ssize_t n) {
    char *data = n > 0 ? malloc((size_t)n) : NULL;
    if (!data) return;
    ssize_t done = pread(from, data, (size_t)n, source);
    if (done == n) wrote(to, data, n, target);
    else note(UNKNOWN, to, n, 0, NULL, 0, "a copy within the kernel", 24);
    free(data);
}

static ssize_t do_copy(int from, off_t *source, int to, off_t *target, size_t n, unsigned flags) {
    off_t s = source ? *source : lseek(from, 0, SEEK_CUR), t = target ? *target : place(to);
    ssize_t done = REAL(copy_file_range)(from, source, to, target, n, flags);
    int kept = errno;
    if (done > 0 && ours(to)) copied(from, s, to, t, done);
    errno = kept;
    return done;
}
ssize_t copy_file_range(int from, off_t *source, int to, off_t *target, size_t n, unsigned flags) { LOCKED(ssize_t, do_copy(from, source, to, target, n, flags)); }

static ssize_t do_sendfile(int to, int from, off_t *source, size_t n) {
    off_t s = source ? *source : lseek(from, 0, SEEK_CUR), t = place(to);
    ssize_t done = REAL(sendfile)(to, from, source, n);
    int kept = errno;
    if (done > 0 && ours(to)) copied(from, s, to, t, done);
    errno = kept;
    return done;
}
ssize_t sendfile(int to, int from, off_t *source, size_t n) {
    if (log_fd < 0 || to < 0 || to >= MOST_FDS || !known[to].used) return REAL(sendfile)(to, from, source, n);
    LOCKED(ssize_t, do_sendfile(to, from, source, n));
}
ssize_t sendfile64(int to, int from, off64_t *source, size_t n) { return sendfile(to, from, source, n); }

/* What is written through a mapping passes by; the test looks at which files were mapped so. */
void *mmap(void *near, size_t n, int protection, int flags, int fd, off_t at) {
    void *result = REAL(mmap)(near, n, protection, flags, fd, at);
    if (result != MAP_FAILED && (flags & MAP_SHARED) && (protection & PROT_WRITE) && fd >= 0 && log_fd >= 0) {
        pthread_mutex_lock(&lock);
        if (ours(fd)) note(MAPPED, fd, 0, 0, NULL, 0, NULL, 0);
        pthread_mutex_unlock(&lock);
    }
    return result;
}
void *mmap64(void *near, size_t n, int protection, int flags, int fd, off64_t at) { return mmap(near, n, protection, flags, fd, at); }

/*
 * Faults of the machine for one process, for a test: LD_PRELOAD it, with MACHINE_FAULTS naming a file
 * of two numbers of eight bytes in the order of the machine: the seconds by which the wall clock is
 * off, and the number of the error with which whatever is written to files in the folder
 * MACHINE_FAULTS_FOLDER fails, 0 for none. What is written there holds at once. Other clocks and
 * files are left alone.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

static volatile struct {
  int64_t clock_off;
  int64_t disk_error;
} *faults;
static const char *folder;
static int (*real_clock_gettime)(clockid_t, struct timespec *);

__attribute__((constructor)) static void begin(void) {
  real_clock_gettime = (int (*)(clockid_t, struct timespec *)) dlsym(RTLD_NEXT, "clock_gettime");
  folder = getenv("MACHINE_FAULTS_FOLDER");
  const char *name = getenv("MACHINE_FAULTS");
  int file = name ? open(name, O_RDONLY | O_CLOEXEC) : -1;
  if (file >= 0) {
    void *there = mmap(0, sizeof *faults, PROT_READ, MAP_SHARED, file, 0);
    faults = there == MAP_FAILED ? 0 : there;
    close(file);
  }
}

int clock_gettime(clockid_t clock, struct timespec *now) {
  int failed = real_clock_gettime ? real_clock_gettime(clock, now)
                                  : (int) syscall(SYS_clock_gettime, clock, now);
  if (!failed && faults && (clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE)) {
    now->tv_sec += faults->clock_off;
  }
  return failed;
}

int gettimeofday(struct timeval *restrict now, void *restrict zone) {
  (void) zone;
  struct timespec precise;
  clock_gettime(CLOCK_REALTIME, &precise);
  now->tv_sec = precise.tv_sec;
  now->tv_usec = precise.tv_nsec / 1000;
  return 0;
}

time_t time(time_t *there) {
  struct timespec precise;
  clock_gettime(CLOCK_REALTIME, &precise);
  if (there) {
    *there = precise.tv_sec;
  }
  return precise.tv_sec;
}

static int fails(int file) {
  char link[64];
  char path[4096];
  if (!faults || !faults->disk_error || !folder) {
    return 0;
  }
  snprintf(link, sizeof link, "/proc/self/fd/%d", file);
  ssize_t length = readlink(link, path, sizeof path);
  size_t wanted = strlen(folder);
  if (length < (ssize_t) wanted || strncmp(path, folder, wanted)) {
    return 0;
  }
  errno = (int) faults->disk_error;
  return 1;
}

ssize_t write(int file, const void *bytes, size_t count) {
  return fails(file) ? -1 : syscall(SYS_write, file, bytes, count);
}

ssize_t pwrite64(int file, const void *bytes, size_t count, off_t at) {
  return fails(file) ? -1 : syscall(SYS_pwrite64, file, bytes, count, at);
}

ssize_t pwrite(int file, const void *bytes, size_t count, off_t at) {
  return pwrite64(file, bytes, count, at);
}

ssize_t writev(int file, const struct iovec *parts, int count) {
  return fails(file) ? -1 : syscall(SYS_writev, file, parts, count);
}

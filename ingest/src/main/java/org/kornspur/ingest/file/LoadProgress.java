package org.kornspur.ingest.file;

/** Told how a load comes along. */
public interface LoadProgress {

  /** Tells nobody. */
  LoadProgress SILENT =
      new LoadProgress() {
        @Override
        public void begins(String file, int number, int of) {}

        @Override
        public void took(long accepted, long refused) {}
      };

  /** A file is opened: the {@code number}th, from 1, of {@code of}. */
  void begins(String file, int number, int of);

  /** Sums so far, after each input. */
  void took(long accepted, long refused);
}

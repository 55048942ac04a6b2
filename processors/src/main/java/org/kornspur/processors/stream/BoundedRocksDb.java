package org.kornspur.processors.stream;

import java.util.Map;
import org.apache.kafka.streams.state.RocksDBConfigSetter;
import org.rocksdb.BlockBasedTableConfig;
import org.rocksdb.Cache;
import org.rocksdb.LRUCache;
import org.rocksdb.Options;
import org.rocksdb.WriteBufferManager;

/**
 * Bounds the memory of all stores of the process together. The default gives every store and
 * partition 50 MiB of cache and 48 MiB of write buffers of its own, which would not fit a small
 * machine.
 */
public final class BoundedRocksDb implements RocksDBConfigSetter {
  private static final long TOTAL_BYTES = 96L << 20;
  private static final long WRITE_BUFFER_BYTES = 48L << 20;
  private static final long ONE_WRITE_BUFFER_BYTES = 4L << 20;

  private static final Cache CACHE = new LRUCache(TOTAL_BYTES, -1, false, 0.1);
  private static final WriteBufferManager WRITE_BUFFERS =
      new WriteBufferManager(WRITE_BUFFER_BYTES, CACHE);

  @Override
  public void setConfig(String storeName, Options options, Map<String, Object> configs) {
    BlockBasedTableConfig table = (BlockBasedTableConfig) options.tableFormatConfig();
    table.setBlockCache(CACHE);
    table.setCacheIndexAndFilterBlocks(true);
    table.setCacheIndexAndFilterBlocksWithHighPriority(true);
    table.setPinTopLevelIndexAndFilter(true);
    options.setTableFormatConfig(table);
    options.setWriteBufferManager(WRITE_BUFFERS);
    options.setWriteBufferSize(ONE_WRITE_BUFFER_BYTES);
    options.setMaxWriteBufferNumber(2);
  }

  @Override
  public void close(String storeName, Options options) {
    // cache and write buffers are shared by all stores and live as long as the process
  }
}

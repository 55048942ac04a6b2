package org.kornspur.api;

import java.nio.file.Path;
import org.kornspur.api.packaged.OneMachine;
import org.kornspur.api.packaged.UndisturbedRun;

/** A machine with the invented enterprise loaded, and an invented GTIN for one of its hybrids. */
public final class DemoMachine extends SharedMachine {

  public static final String GTIN = "04012345000016";
  public static final String ADDRESS = "https://seed.example";

  @Override
  protected OneMachine prepared() throws Exception {
    Path folder = TestFolder.emptied("demo-machine");
    UndisturbedRun.copyOfWholeDemoInto(folder);
    return new OneMachine(folder)
        .with("KORNSPUR_PUBLIC_ADDRESS", ADDRESS)
        .with("KORNSPUR_GS1_COMPANY_PREFIX", "4012345")
        .with("KORNSPUR_DEMO", "true")
        .option("-Xmx1g")
        .option("-Dkornspur.gtin.\"HYB-01\"=" + GTIN);
  }
}

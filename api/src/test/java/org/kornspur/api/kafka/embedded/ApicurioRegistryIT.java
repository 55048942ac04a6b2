package org.kornspur.api.kafka.embedded;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;

/** The contract against Apicurio Registry, the server that clusters use. */
class ApicurioRegistryIT extends RegistryContractTest {

  private static ApicurioServer server;

  @BeforeAll
  static void startServer(@TempDir Path folder) throws Exception {
    server = ApicurioServer.start(folder);
  }

  @AfterAll
  static void stopServer() throws Exception {
    server.close();
  }

  @Override
  Map<String, Object> logIn() {
    return Map.of();
  }

  @Override
  String url() {
    return server.url();
  }
}

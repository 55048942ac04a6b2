package org.kornspur.processors.stream;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.apache.kafka.common.serialization.Deserializer;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.common.serialization.Serializer;

/** Messages to dossiers: a kind byte, the fact id, then the fact in wire format or who and why. */
final class SubjectMessageSerde {
  private static final int FACT = 1;
  private static final int REVOCATION = 2;

  private SubjectMessageSerde() {}

  static Serde<SubjectMessage> serde() {
    Serializer<SubjectMessage> serializer = (topic, message) -> write(message);
    Deserializer<SubjectMessage> deserializer = (topic, bytes) -> read(bytes);
    return Serdes.serdeFrom(serializer, deserializer);
  }

  private static byte[] write(SubjectMessage message) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      if (message instanceof SubjectMessage.FactFor fact) {
        out.writeByte(FACT);
        out.writeUTF(fact.factId());
        out.write(fact.wire());
      } else if (message instanceof SubjectMessage.RevocationOf revocation) {
        out.writeByte(REVOCATION);
        out.writeUTF(revocation.factId());
        out.writeUTF(revocation.byFactId());
        out.writeUTF(revocation.reason());
      }
    } catch (IOException unwritable) {
      throw new UncheckedIOException(unwritable);
    }
    return bytes.toByteArray();
  }

  private static SubjectMessage read(byte[] bytes) {
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
      int kind = in.readByte();
      String factId = in.readUTF();
      return switch (kind) {
        case FACT -> new SubjectMessage.FactFor(factId, in.readAllBytes());
        case REVOCATION -> new SubjectMessage.RevocationOf(factId, in.readUTF(), in.readUTF());
        default -> throw new IllegalArgumentException("Not a message to a dossier: kind " + kind);
      };
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}

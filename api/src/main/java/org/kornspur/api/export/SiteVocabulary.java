package org.kornspur.api.export;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.kornspur.api.export.identity.Vocabulary;

/**
 * Our own terms under the address that the site gave them. Within the program they have one name;
 * they are named anew where a document leaves, and back where one comes in. What comes in under our
 * own name is understood in any case.
 */
@ApplicationScoped
public class SiteVocabulary {
  private final String address;

  @Inject
  SiteVocabulary(ExportSettings settings) {
    this(settings.vocabularyAddress());
  }

  SiteVocabulary(String address) {
    this.address = address;
  }

  static void checkSetting(@Observes StartupEvent start, ExportSettings settings) {
    String address = settings.vocabularyAddress();
    if (!address.matches("https?://[^\\s/?#]+(/[^\\s?#]*)?[/#]")) {
      // Of this one, where it has no cause, Quarkus says the message and nothing else.
      throw new ConfigurationException(
          "Kornspur could not start: kornspur.vocabulary-address is '"
              + address
              + "'. Give an address that begins with https:// and ends with / or #.");
    }
  }

  /** A document as it leaves. */
  ObjectNode outward(ObjectNode document) {
    return address.equals(Vocabulary.NAMESPACE)
        ? document
        : (ObjectNode) renamed(document, text -> moved(text, Vocabulary.NAMESPACE, address));
  }

  /** A document that came in, with our terms as the program names them. */
  JsonNode inward(JsonNode document) {
    return address.equals(Vocabulary.NAMESPACE) ? document : renamed(document, this::inward);
  }

  /** A term that came in. */
  String inward(String term) {
    return moved(term, address, Vocabulary.NAMESPACE);
  }

  private static String moved(String text, String from, String to) {
    return text.startsWith(from) ? to + text.substring(from.length()) : text;
  }

  private static JsonNode renamed(JsonNode node, UnaryOperator<String> name) {
    if (node.isTextual()) {
      return TextNode.valueOf(name.apply(node.textValue()));
    }
    if (node.isArray()) {
      ArrayNode list = JsonNodeFactory.instance.arrayNode(node.size());
      node.forEach(one -> list.add(renamed(one, name)));
      return list;
    }
    if (node.isObject()) {
      ObjectNode object = JsonNodeFactory.instance.objectNode();
      for (Map.Entry<String, JsonNode> field : node.properties()) {
        object.set(name.apply(field.getKey()), renamed(field.getValue(), name));
      }
      return object;
    }
    return node;
  }
}

package org.kornspur.api.export.paper;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.util.XRLog;
import jakarta.ws.rs.core.StreamingOutput;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.logging.Level;
import java.util.regex.Pattern;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.io.IOUtils;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import org.kornspur.api.http.HeavyDocuments;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ExportDetail;
import org.kornspur.api.problem.ProblemKind;

/**
 * Sets XHTML as PDF: in the manner of PDF/A-3a (ISO 19005-3) and PDF/UA (ISO 14289-1), tagged, with
 * its fonts embedded, so that it can be read in decades. Nothing is loaded from anywhere: neither
 * from the network nor from the machine that it runs on.
 */
final class PdfRenderer {
  private static final String FONTS = "/net/sf/jasperreports/fonts/dejavu/";

  /** What XML 1.0, section 2.2, allows no document to hold. */
  private static final Pattern NO_XML =
      Pattern.compile("[^\\t\\n\\r\\x20-\\uD7FF\\uE000-\\uFFFD\\x{10000}-\\x{10FFFF}]");

  /** What a character of the text takes while it is laid out, measured; rounded up. */
  private static final int BYTES_OF_A_CHARACTER = 260;

  /** A picture that stands in the document itself. */
  private static final String PICTURE_WITHIN = "data:image/png;base64,";

  static final long MOST_CHARACTERS = HeavyDocuments.BYTES_OF_ONE / BYTES_OF_A_CHARACTER;

  private static final byte[] SRGB = ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData();

  static {
    // it tells of each link without a title, at its level of information
    XRLog.listRegisteredLoggers().forEach(logger -> XRLog.setLevel(logger, Level.SEVERE));
  }

  private PdfRenderer() {}

  /**
   * A file within the PDF.
   *
   * @param name its name
   * @param mediaType as in {@code application/json}
   * @param description for a person
   */
  record Enclosure(String name, String mediaType, String description, byte[] content) {}

  /**
   * The PDF, made when it is written.
   *
   * @throws ApiProblem if it would be too large to be made
   */
  static StreamingOutput paper(String xhtml, List<Enclosure> enclosures) {
    if (xhtml.length() > MOST_CHARACTERS) {
      throw new ApiProblem(
          ProblemKind.REQUEST_REFUSED,
          new ExportDetail.PaperTooLong(xhtml.length(), MOST_CHARACTERS));
    }
    return pdf -> print(xhtml, enclosures, pdf);
  }

  /**
   * Writes the PDF. What is finished of it waits in a file of the machine's folder for such files,
   * and nothing is written to the stream before all is set.
   *
   * @return how many pages it has
   * @throws IOException if the stream or that file does not take it
   */
  static int print(String xhtml, List<Enclosure> enclosures, OutputStream pdf) throws IOException {
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.usePdfAConformance(PdfAConformance.PDFA_3_A);
    builder.usePdfUaAccessibility(true);
    builder.useColorProfile(SRGB);
    builder.withProducer("Kornspur");
    builder.useUriResolver(
        (base, uri) -> uri.startsWith("#") || uri.startsWith(PICTURE_WITHIN) ? uri : null);
    font(builder, "DejaVuSansCondensed.ttf", "Text", 400);
    font(builder, "DejaVuSansCondensed-Bold.ttf", "Text", 700);
    font(builder, "DejaVuSansMono.ttf", "Fixed", 400);
    builder.withHtmlContent(NO_XML.matcher(xhtml).replaceAll("\uFFFD"), null);
    builder.toStream(pdf);
    try (PDDocument document = new PDDocument(IOUtils.createTempFileOnlyStreamCache());
        PdfBoxRenderer renderer = builder.usePDDocument(document).buildPdfRenderer()) {
      renderer.layout();
      renderer.createPDFWithoutClosing();
      if (!enclosures.isEmpty()) {
        enclose(document, enclosures);
      }
      document.save(pdf);
      return document.getNumberOfPages();
    }
  }

  private static void font(PdfRendererBuilder builder, String file, String family, int weight) {
    builder.useFont(() -> open(file), family, weight, FontStyle.NORMAL, true);
  }

  private static InputStream open(String file) {
    InputStream font = PdfRenderer.class.getResourceAsStream(FONTS + file);
    if (font == null) {
      throw new IllegalStateException("The font " + file + " is not on the class path");
    }
    return font;
  }

  /** As associated files with the relation "data" (ISO 19005-3, 6.8). */
  private static void enclose(PDDocument document, List<Enclosure> enclosures) throws IOException {
    Map<String, PDComplexFileSpecification> files = new TreeMap<>();
    COSArray associated = new COSArray();
    for (Enclosure enclosure : enclosures) {
      PDComplexFileSpecification specification = specification(document, enclosure);
      files.put(enclosure.name(), specification);
      associated.add(specification.getCOSObject());
    }
    PDEmbeddedFilesNameTreeNode tree = new PDEmbeddedFilesNameTreeNode();
    tree.setNames(files);
    PDDocumentNameDictionary names = new PDDocumentNameDictionary(document.getDocumentCatalog());
    names.setEmbeddedFiles(tree);
    document.getDocumentCatalog().setNames(names);
    document.getDocumentCatalog().getCOSObject().setItem(COSName.getPDFName("AF"), associated);
  }

  private static PDComplexFileSpecification specification(PDDocument document, Enclosure enclosure)
      throws IOException {
    PDEmbeddedFile file =
        new PDEmbeddedFile(document, new ByteArrayInputStream(enclosure.content()));
    file.setSubtype(enclosure.mediaType());
    file.setSize(enclosure.content().length);
    PDComplexFileSpecification specification = new PDComplexFileSpecification();
    specification.setFile(enclosure.name());
    specification.setFileUnicode(enclosure.name());
    specification.setFileDescription(enclosure.description());
    specification.setEmbeddedFile(file);
    specification.setEmbeddedFileUnicode(file);
    specification.getCOSObject().setName("AFRelationship", "Data");
    return specification;
  }
}

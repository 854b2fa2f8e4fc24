package org.steamwright.house;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import java.util.List;
import org.junit.jupiter.api.Test;

/** XML comes in by one door, the one that opens no second file and no connection. */
class XmlDoorTest {

    private static final String DOOR = "org.steamwright.intake.xml";

    /** Whatever makes a parser, or reads XML without being asked for one. */
    private static final List<String> FACTORIES = List.of(
            "javax.xml.stream.XMLInputFactory",
            "javax.xml.stream.XMLEventFactory",
            "javax.xml.parsers.DocumentBuilderFactory",
            "javax.xml.parsers.DocumentBuilder",
            "javax.xml.parsers.SAXParserFactory",
            "javax.xml.parsers.SAXParser",
            "javax.xml.transform.TransformerFactory",
            "javax.xml.validation.SchemaFactory",
            "javax.xml.xpath.XPathFactory",
            "org.xml.sax.XMLReader",
            "org.xml.sax.helpers.XMLReaderFactory",
            "org.w3c.dom.bootstrap.DOMImplementationRegistry",
            "org.w3c.dom.ls.LSParser",
            "java.beans.XMLDecoder");

    @Test
    void nobody_else_makes_an_xml_parser() {
        noClasses()
                .that(resideInAPackage("org.steamwright..").and(not(resideInAPackage(DOOR))))
                .should()
                .dependOnClassesThat(factories())
                .because("a parser of its own reads what the hardened one refuses; use " + DOOR + ".SafeXml")
                .check(Program.CLASSES);
    }

    @Test
    void the_door_itself_is_there() {
        assertThat(Program.CLASSES.stream()
                        .filter(c -> c.getPackageName().equals(DOOR))
                        .flatMap(c -> c.getDirectDependenciesFromSelf().stream())
                        .map(dependency -> dependency.getTargetClass().getName()))
                .as("a rule about a package that makes no parser holds nothing")
                .contains("javax.xml.stream.XMLInputFactory", "javax.xml.parsers.DocumentBuilderFactory");
    }

    private static DescribedPredicate<JavaClass> factories() {
        DescribedPredicate<JavaClass> any = DescribedPredicate.alwaysFalse();
        for (String factory : FACTORIES) {
            any = any.or(assignableTo(factory));
        }
        return any.as("factories of XML parsers");
    }
}

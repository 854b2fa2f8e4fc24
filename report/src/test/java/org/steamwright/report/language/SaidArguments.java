package org.steamwright.report.language;

import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.CaseTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.NewClassTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.ReturnTree;
import com.sun.source.tree.SwitchExpressionTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import com.sun.source.util.Trees;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.jspecify.annotations.Nullable;

/**
 * What the arguments of calls in the sources of a module come to, as far as it stands there: texts, texts that are added up, that
 * are formatted, and that are chosen from. A mark stands where only the running program knows.
 */
final class SaidArguments {

    /** Stands for a name, a number, or whatever else is no sentence. */
    static final String MARK = "Q7";

    private static final Pattern PLACE = Pattern.compile("%(?:(\\d+)\\$)?[-+#0-9.,]*[a-zA-Z]");
    private static final int MOST = 60;
    private static final int DEEPEST = 12;

    /**
     * A call.
     *
     * @param where file and line
     * @param name simple name of the class that is made, or the method with what it is called on
     * @param first first argument as it is written
     * @param arguments what each of them may come to
     */
    record Call(String where, String name, String first, List<Set<String>> arguments) {}

    private final Map<String, List<ExpressionTree>> named = new HashMap<>();
    private final Map<String, List<ExpressionTree>> returned = new HashMap<>();
    private final Map<String, List<String>> parameters = new HashMap<>();
    private final Map<String, List<Handed>> handed = new HashMap<>();

    /** Arguments of a call within the same file, and the method in which it stands. */
    private record Handed(String within, List<? extends ExpressionTree> arguments) {}

    private SaidArguments() {}

    /** All calls of the module that make one of these, or call one of these methods. */
    static List<Call> of(String module, Set<String> made, Set<String> called) throws IOException {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        Path sources = Path.of("..", module, "src", "main", "java");
        List<Path> files;
        try (Stream<Path> all = Files.walk(sources)) {
            files = all.filter(one -> one.toString().endsWith(".java")).toList();
        }
        List<Call> calls = new ArrayList<>();
        try (StandardJavaFileManager manager = compiler.getStandardFileManager(null, null, null)) {
            JavacTask task = (JavacTask) compiler.getTask(
                    null, manager, null, List.of("-proc:none"), null, manager.getJavaFileObjectsFromPaths(files));
            Trees trees = Trees.instance(task);
            for (CompilationUnitTree unit : task.parse()) {
                calls.addAll(new SaidArguments().in(unit, trees, made, called));
            }
        }
        return calls;
    }

    private List<Call> in(CompilationUnitTree unit, Trees trees, Set<String> made, Set<String> called) {
        String file = Path.of(unit.getSourceFile().toUri()).getFileName().toString();
        unit.accept(
                new TreeScanner<@Nullable Void, @Nullable Void>() {
                    private String within = "";

                    @Override
                    public @Nullable Void visitVariable(VariableTree variable, @Nullable Void none) {
                        List<ExpressionTree> all =
                                named.computeIfAbsent(variable.getName().toString(), unseen -> new ArrayList<>());
                        if (variable.getInitializer() != null) {
                            all.add(variable.getInitializer());
                        }
                        return super.visitVariable(variable, none);
                    }

                    @Override
                    public @Nullable Void visitMethod(MethodTree method, @Nullable Void none) {
                        String before = within;
                        within = method.getName().toString();
                        parameters.put(
                                within,
                                method.getParameters().stream()
                                        .map(parameter -> parameter.getName().toString())
                                        .toList());
                        super.visitMethod(method, none);
                        within = before;
                        return null;
                    }

                    @Override
                    public @Nullable Void visitMethodInvocation(MethodInvocationTree call, @Nullable Void none) {
                        if (call.getMethodSelect() instanceof IdentifierTree method) {
                            handed.computeIfAbsent(method.getName().toString(), unseen -> new ArrayList<>())
                                    .add(new Handed(within, call.getArguments()));
                        }
                        return super.visitMethodInvocation(call, none);
                    }

                    @Override
                    public @Nullable Void visitReturn(ReturnTree back, @Nullable Void none) {
                        if (back.getExpression() != null) {
                            returned.computeIfAbsent(within, unseen -> new ArrayList<>())
                                    .add(back.getExpression());
                        }
                        return super.visitReturn(back, none);
                    }
                },
                null);
        List<Call> calls = new ArrayList<>();
        unit.accept(
                new TreeScanner<@Nullable Void, @Nullable Void>() {
                    private String within = "";

                    @Override
                    public @Nullable Void visitMethod(MethodTree method, @Nullable Void none) {
                        String before = within;
                        within = method.getName().toString();
                        super.visitMethod(method, none);
                        within = before;
                        return null;
                    }

                    @Override
                    public @Nullable Void visitNewClass(NewClassTree call, @Nullable Void none) {
                        if (made.contains(call.getIdentifier().toString())) {
                            add(call, call.getIdentifier().toString(), call.getArguments());
                        }
                        return super.visitNewClass(call, none);
                    }

                    @Override
                    public @Nullable Void visitMethodInvocation(MethodInvocationTree call, @Nullable Void none) {
                        String name = name(call);
                        if (called.contains(name)) {
                            add(call, name, call.getArguments());
                        }
                        return super.visitMethodInvocation(call, none);
                    }

                    private void add(Tree call, String name, List<? extends ExpressionTree> arguments) {
                        long line = unit.getLineMap()
                                .getLineNumber(trees.getSourcePositions().getStartPosition(unit, call));
                        calls.add(new Call(
                                file + ":" + line,
                                name,
                                arguments.isEmpty() ? "" : arguments.get(0).toString(),
                                arguments.stream()
                                        .map(one -> said(one, within, 0))
                                        .toList()));
                    }
                },
                null);
        return calls;
    }

    /** {@code Flaw.of}, and {@code Flaw.with} for what is called on something that such a call made. */
    private static String name(MethodInvocationTree call) {
        if (!(call.getMethodSelect() instanceof MemberSelectTree method)) {
            return call.getMethodSelect().toString();
        }
        ExpressionTree on = method.getExpression();
        while (on instanceof MethodInvocationTree before
                && before.getMethodSelect() instanceof MemberSelectTree select) {
            on = select.getExpression();
        }
        return on + "." + method.getIdentifier();
    }

    private Set<String> said(ExpressionTree expression, String within, int depth) {
        if (depth > DEEPEST) {
            return Set.of(MARK);
        }
        int deeper = depth + 1;
        if (expression instanceof LiteralTree literal) {
            return Set.of(String.valueOf(literal.getValue()));
        }
        if (expression instanceof ParenthesizedTree inner) {
            return said(inner.getExpression(), within, deeper);
        }
        if (expression instanceof BinaryTree sum && sum.getKind() == Tree.Kind.PLUS) {
            return joined(said(sum.getLeftOperand(), within, deeper), said(sum.getRightOperand(), within, deeper));
        }
        if (expression instanceof ConditionalExpressionTree choice) {
            return either(
                    said(choice.getTrueExpression(), within, deeper),
                    said(choice.getFalseExpression(), within, deeper));
        }
        if (expression instanceof LambdaExpressionTree lambda) {
            return lambda.getBody() instanceof ExpressionTree body ? said(body, within, deeper) : Set.of(MARK);
        }
        if (expression instanceof SwitchExpressionTree choice) {
            return chosen(choice, within, deeper);
        }
        if (expression instanceof IdentifierTree name) {
            return named(name.getName().toString(), within, deeper);
        }
        return expression instanceof MethodInvocationTree call ? formatted(call, within, deeper) : Set.of(MARK);
    }

    /** A parameter is whatever the file hands over; another name is what it was made with, if there is one of it. */
    private Set<String> named(String name, String within, int depth) {
        int place = parameters.getOrDefault(within, List.of()).indexOf(name);
        if (place < 0) {
            List<ExpressionTree> values = named.getOrDefault(name, List.of());
            return values.size() == 1 ? said(values.get(0), within, depth) : Set.of(MARK);
        }
        Set<String> all = new LinkedHashSet<>();
        for (Handed handed : handed.getOrDefault(within, List.of())) {
            if (place < handed.arguments.size() && !handed.within.equals(within)) {
                all.addAll(said(handed.arguments.get(place), handed.within, depth));
            }
        }
        return all.isEmpty() ? Set.of(MARK) : all;
    }

    /** Both; that one of two unknown texts may be empty is no text of its own. */
    private static Set<String> either(Set<String> one, Set<String> other) {
        Set<String> all = new LinkedHashSet<>(one);
        all.addAll(other);
        if (all.equals(Set.of(MARK, ""))) {
            all.remove("");
        }
        return all;
    }

    private Set<String> chosen(SwitchExpressionTree choice, String within, int depth) {
        Set<String> all = new LinkedHashSet<>();
        for (CaseTree one : choice.getCases()) {
            if (one.getBody() instanceof ExpressionTree value) {
                all.addAll(said(value, within, depth));
            }
        }
        return all.isEmpty() ? Set.of(MARK) : all;
    }

    private Set<String> formatted(MethodInvocationTree call, String within, int depth) {
        if (!(call.getMethodSelect() instanceof MemberSelectTree method)) {
            return returned(call.getMethodSelect().toString(), depth);
        }
        List<? extends ExpressionTree> arguments = call.getArguments();
        if (method.toString().equals("Nearest.didYouMean")) {
            return new LinkedHashSet<>(List.of("", " Did you mean \"" + MARK + "\"?"));
        }
        if (method.getIdentifier().contentEquals("orElse")
                || method.getIdentifier().contentEquals("orElseGet")) {
            return either(said(method.getExpression(), within, depth), said(arguments.get(0), within, depth));
        }
        if (method.getIdentifier().contentEquals("map") && arguments.get(0) instanceof LambdaExpressionTree lambda) {
            return said(lambda, within, depth);
        }
        ExpressionTree template = method.getExpression();
        if (method.getIdentifier().contentEquals("format")
                && template.toString().equals("String")) {
            int at = arguments.get(0).toString().startsWith("Locale.") ? 1 : 0;
            template = arguments.get(at);
            arguments = arguments.subList(at + 1, arguments.size());
        } else if (!method.getIdentifier().contentEquals("formatted")) {
            return Set.of(MARK);
        }
        List<Set<String>> parts =
                arguments.stream().map(one -> said(one, within, depth)).toList();
        Set<String> all = new LinkedHashSet<>();
        for (String text : said(template, within, depth)) {
            all.addAll(filled(text, parts));
        }
        return all;
    }

    /** What a method of the same file gives back, wherever it stands there once. */
    private Set<String> returned(String method, int depth) {
        List<ExpressionTree> values = returned.getOrDefault(method, List.of());
        Set<String> all = new LinkedHashSet<>();
        values.forEach(value -> all.addAll(said(value, method, depth)));
        return all.isEmpty() ? Set.of(MARK) : all;
    }

    private static Set<String> filled(String template, List<Set<String>> parts) {
        Set<String> texts = Set.of("");
        Matcher place = PLACE.matcher(template);
        int from = 0;
        int next = 0;
        while (place.find()) {
            int number = place.group(1) == null ? next++ : Integer.parseInt(place.group(1)) - 1;
            texts = joined(texts, Set.of(template.substring(from, place.start())));
            boolean isFigure = place.group().endsWith("d");
            texts = joined(texts, isFigure ? Set.of("7") : number < parts.size() ? parts.get(number) : Set.of(MARK));
            from = place.end();
        }
        return joined(texts, Set.of(template.substring(from).replace("%%", "%")));
    }

    private static Set<String> joined(Set<String> before, Set<String> behind) {
        Set<String> all = new LinkedHashSet<>();
        for (String one : before) {
            for (String other : behind) {
                if (all.size() < MOST) {
                    all.add(one + other);
                }
            }
        }
        return all;
    }
}

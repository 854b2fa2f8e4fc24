package org.steamwright.records.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MerkleProofsTest {

    /** Leaves and roots of the reference test set of Certificate Transparency (transparency-dev/merkle, testonly/constants.go). */
    static final List<Hash> PUBLISHED_LEAVES = List.of(
                    "", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")
            .stream()
            .map(hex -> Hash.ofLeaf(HexFormat.of().parseHex(hex)))
            .toList();

    @ParameterizedTest
    @CsvSource({
        "0, e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "1, 6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
        "2, fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
        "3, aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
        "4, d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
        "5, 4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
        "6, 76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
        "7, ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
        "8, 5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
    })
    void gives_the_published_root_of_the_reference_leaves(int size, String root) {
        assertThat(head(PUBLISHED_LEAVES.subList(0, size)).root().hex()).isEqualTo(root);
    }

    /** Proofs of the same test set. */
    @ParameterizedTest
    @CsvSource({
        "1, 8, 96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7 5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e 6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
        "6, 8, 0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0 d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
        "2, 5, 5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
        "6, 7, 0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a b08693ec2e721597130641e8211e7eedccb4c26413963eee6c1e2ed16ffb1a5f d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    })
    void gives_the_published_proofs_of_consistency(int first, int second, String path) {
        ConsistencyProof proof = MerkleProofs.consistency(first, second, naive(PUBLISHED_LEAVES));
        assertThat(proof.path().stream().map(Hash::hex)).containsExactly(path.split(" "));
    }

    @Test
    void every_proof_of_every_small_journal_holds_and_no_other_head_is_believed() {
        List<Hash> leaves = leaves(33);
        MerkleProofs.Subtrees subtrees = naive(leaves);
        for (int size = 1; size <= leaves.size(); size++) {
            TreeHead head = head(leaves.subList(0, size));
            assertThat(head.root()).isEqualTo(naiveRoot(leaves.subList(0, size)));
            for (int index = 0; index < size; index++) {
                InclusionProof proof = MerkleProofs.inclusion(index, size, subtrees);
                assertThat(ProofChecks.isIncluded(proof, leaves.get(index), head))
                        .isTrue();
                assertThat(ProofChecks.isIncluded(proof, leaves.get((index + 1) % size), head))
                        .isEqualTo(size == 1);
                assertThat(ProofChecks.isIncluded(proof, leaves.get(index), new TreeHead(size, Hash.ofNothing())))
                        .isFalse();
            }
            for (int first = 0; first <= size; first++) {
                TreeHead earlier = head(leaves.subList(0, first));
                ConsistencyProof proof = MerkleProofs.consistency(first, size, subtrees);
                assertThat(ProofChecks.isConsistent(proof, earlier, head)).isTrue();
                if (first > 0) {
                    List<Hash> other = new ArrayList<>(leaves.subList(0, first));
                    other.set(first / 2, Hash.ofLeaf(new byte[] {9}));
                    assertThat(ProofChecks.isConsistent(proof, head(other), head))
                            .isFalse();
                }
            }
        }
    }

    @Test
    void a_proof_with_one_bit_turned_is_not_believed() {
        List<Hash> leaves = leaves(29);
        TreeHead head = head(leaves);
        RandomGenerator random = new java.util.SplittableRandom(7);
        InclusionProof inclusion = MerkleProofs.inclusion(11, 29, naive(leaves));
        ConsistencyProof consistency = MerkleProofs.consistency(13, 29, naive(leaves));
        for (int i = 0; i < 200; i++) {
            assertThat(ProofChecks.isIncluded(
                            new InclusionProof(11, 29, turned(inclusion.path(), random)), leaves.get(11), head))
                    .isFalse();
            assertThat(ProofChecks.isConsistent(
                            new ConsistencyProof(13, 29, turned(consistency.path(), random)),
                            head(leaves.subList(0, 13)),
                            head))
                    .isFalse();
        }
    }

    @Test
    void a_proof_that_is_too_long_or_too_short_is_not_believed() {
        List<Hash> leaves = leaves(12);
        InclusionProof proof = MerkleProofs.inclusion(5, 12, naive(leaves));
        List<Hash> longer = new ArrayList<>(proof.path());
        longer.add(Hash.ofNothing());
        assertThat(ProofChecks.isIncluded(new InclusionProof(5, 12, longer), leaves.get(5), head(leaves)))
                .isFalse();
        assertThat(ProofChecks.isIncluded(
                        new InclusionProof(5, 12, proof.path().subList(0, 2)), leaves.get(5), head(leaves)))
                .isFalse();
        assertThat(ProofChecks.isConsistent(
                        new ConsistencyProof(5, 12, List.of()), head(leaves.subList(0, 5)), head(leaves)))
                .isFalse();
    }

    @Test
    void a_proof_about_a_million_entries_is_short() {
        MerkleProofs.Subtrees any = (level, index) -> Hash.ofNothing();
        assertThat(MerkleProofs.inclusion(777_777, 1_000_000, any).path()).hasSizeLessThanOrEqualTo(20);
        assertThat(MerkleProofs.consistency(777_777, 1_000_000, any).path()).hasSizeLessThanOrEqualTo(21);
    }

    @Test
    void a_head_is_read_as_it_was_printed() {
        TreeHead head = head(leaves(7));
        assertThat(TreeHead.parse(head.text())).isEqualTo(head);
        assertThat(TreeHead.parse(head.text().replaceAll("(.{8})", "$1 "))).isEqualTo(head);
        assertThat(head.shortText()).matches("7: ([0-9a-f]{5} ){3}[0-9a-f]{5}");
        assertThatThrownBy(() -> TreeHead.parse("7:abc"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("64 hexadecimal digits, not '7:abc'");
    }

    private static List<Hash> turned(List<Hash> path, RandomGenerator random) {
        List<Hash> turned = new ArrayList<>(path);
        int place = random.nextInt(path.size());
        byte[] bytes = path.get(place).toBytes();
        bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
        turned.set(place, Hash.ofBytes(bytes));
        return turned;
    }

    static List<Hash> leaves(int count) {
        List<Hash> leaves = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            leaves.add(Hash.ofLeaf(("entry " + i).getBytes(StandardCharsets.UTF_8)));
        }
        return leaves;
    }

    static TreeHead head(List<Hash> leaves) {
        Frontier frontier = new Frontier();
        leaves.forEach(frontier::add);
        return frontier.head();
    }

    /** The definition, word for word: split at the largest power of two below the number. */
    static Hash naiveRoot(List<Hash> leaves) {
        if (leaves.isEmpty()) {
            return Hash.ofNothing();
        }
        if (leaves.size() == 1) {
            return leaves.get(0);
        }
        int split = 1;
        while (split * 2 < leaves.size()) {
            split *= 2;
        }
        return Hash.ofNode(naiveRoot(leaves.subList(0, split)), naiveRoot(leaves.subList(split, leaves.size())));
    }

    static MerkleProofs.Subtrees naive(List<Hash> leaves) {
        return (level, index) ->
                naiveRoot(leaves.subList((int) (index << level), (int) Math.min(leaves.size(), (index + 1) << level)));
    }
}

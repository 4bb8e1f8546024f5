#include "base/hash.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

// The short and the two-block message of NIST's example values for SHA-256 (FIPS 180-4,
// csrc.nist.gov "Cryptographic Standards and Guidelines, Examples with Intermediate Values").
TEST(Sha256, gives_the_published_example_values) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST(Sha256, gives_the_known_value_of_nothing) {
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Sha256, reads_zero_bytes_like_any_other) {
  EXPECT_NE(sha256(std::string_view("a\0b", 3)), sha256(std::string_view("a\0c", 3)));
}

}  // namespace
}  // namespace quoin

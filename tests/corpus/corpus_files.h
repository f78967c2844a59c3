#pragma once

#include <fstream>
#include <iterator>
#include <string>

// The reading corpus: tests/corpus/data, whose README says where every line comes from.
namespace stillroom::corpus {

inline std::string dataPath(const std::string& name) {
    return std::string(STILLROOM_SOURCE_DIR "/tests/corpus/data/") + name;
}

inline std::string bytesOf(const std::string& name) {
    std::ifstream file(dataPath(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

} // namespace stillroom::corpus

#pragma once

#include <string>

namespace stillroom::bench {

struct BigBookSize {
    int drinks = 3000;
    int revisions = 100000; // over all drinks
    int tastings = 10000;
    int measuredEvery = 0; // of the tastings, weighed; 0: none. Each then says how old the glass was, too
};

// Writes a workbook of invented drinks for measuring, through the store's own repositories, many changes to
// a transaction. Every revision is computed, hashed and pinned as keep() does it. The same size gives the
// same specs. Throws store::StoreError.
void makeBigBook(const std::string& path, const BigBookSize& size);
std::string benchWord(std::size_t index); // of those its notes are made of; the first are the most common

} // namespace stillroom::bench

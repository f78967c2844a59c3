#pragma once

#include "core/store/book.h"
#include "core/store/empty_bin.h"

// Internal to core/store.
namespace stillroom::store {

// Takes what is in the bin out of a copy of a workbook: the one place where history is deleted. The triggers
// that forbid it are put back before the transaction ends.
class BinTaker {
  public:
    explicit BinTaker(Book& book) : m_book(book) {}
    void takeOut(EmptiedBin& report); // inside a transaction

  private:
    void choose();
    void spareNeeded(std::vector<StillNeeded>& needed);
    bool spare(const char* which, StillNeeded::By kind, const char* sql, std::vector<StillNeeded>& needed);
    void remember();
    void remove();
    void forgetInSearch();
    int count(const char* sql);
    Book& m_book;
};

} // namespace stillroom::store

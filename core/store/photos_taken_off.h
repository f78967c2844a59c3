#pragma once

#include "core/store/photos_of_book.h"

#include <vector>

namespace stillroom::store {

class Workbook;

// Photos that were taken off and can be put back while the bin is not emptied: a side of every open workbook,
// asked for by the function below.
class PhotosTakenOff {
  public:
    virtual ~PhotosTakenOff() = default;
    virtual std::vector<AttachedPhoto> takenOff(const PhotoOf& of) const = 0;
};

// In the order they were attached. Of a tasting: with those of the ones it amends. Throws StoreError.
std::vector<AttachedPhoto> photosTakenOff(const Workbook& book, const PhotoOf& of);

} // namespace stillroom::store

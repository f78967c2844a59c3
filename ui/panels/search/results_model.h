#pragma once

#include "core/store/search_of_book.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"

#include <QAbstractListModel>

#include <functional>
#include <optional>
#include <vector>

namespace stillroom::ui {

class WorkbookSession;

// What a search found, as rows; more of them are asked for when one walks on.
class ResultsModel : public QAbstractListModel {
    Q_OBJECT

  public:
    struct Stretch { // characters of a text
        int start = 0;
        int length = 0;
    };
    struct Row {
        base::DrinkId drink;
        std::optional<base::RevisionId> revision;
        QString name;
        QString where; // "reason of r3", or the menu
        QString said;  // the text it was found in
        std::vector<Stretch> nameMarks, saidMarks;
        StateMark state = StateMark::Draft;
        bool preparation = false, binned = false;
        ReadingText strength;
    };
    using Search = std::function<std::optional<store::SearchAnswer>(int atMost)>;

    explicit ResultsModel(QObject* parent = nullptr);

    // Keeps as many rows as stood there when `keep`.
    void show(WorkbookSession* book, Search search, bool keep);
    void clear();
    const store::SearchAnswer& answer() const { return m_answer; }
    const Row& row(int index) const { return m_rows[static_cast<std::size_t>(index)]; }
    int rowOf(base::DrinkId drink) const; // −1: not among them

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool canFetchMore(const QModelIndex& parent) const override;
    void fetchMore(const QModelIndex& parent) override;

  Q_SIGNALS:
    void fetched();

  private:
    Row rowOfHit(const store::SearchHit& hit) const;
    WorkbookSession* m_book = nullptr;
    Search m_search;
    store::SearchAnswer m_answer;
    std::vector<Row> m_rows;
};

} // namespace stillroom::ui

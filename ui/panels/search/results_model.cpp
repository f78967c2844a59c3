#include "ui/panels/search/results_model.h"

#include "ui/panels/search/search_words.h"
#include "ui/session/workbook_session.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kAtOnce = 50;

std::vector<ResultsModel::Stretch> stretches(const std::string& text,
                                             const std::vector<store::TextSpan>& spans) {
    std::vector<ResultsModel::Stretch> found;
    const auto letters = [&](std::size_t bytes) {
        return static_cast<int>(fromCore(std::string_view(text).substr(0, bytes)).size());
    };
    for (const auto& span : spans) {
        const int start = letters(span.start);
        found.push_back({start, letters(span.start + span.length) - start});
    }
    return found;
}

} // namespace

ResultsModel::ResultsModel(QObject* parent) : QAbstractListModel(parent) {}

void ResultsModel::show(WorkbookSession* book, Search search, bool keep) {
    m_book = book;
    m_search = std::move(search);
    auto answer = m_search(keep ? std::max(kAtOnce, rowCount()) : kAtOnce);
    beginResetModel();
    m_rows.clear();
    m_answer = answer ? *std::move(answer) : store::SearchAnswer{};
    for (const auto& hit : m_answer.hits)
        m_rows.push_back(rowOfHit(hit));
    endResetModel();
}

void ResultsModel::clear() {
    beginResetModel();
    m_rows.clear();
    m_answer = {};
    m_search = {};
    endResetModel();
}

ResultsModel::Row ResultsModel::rowOfHit(const store::SearchHit& hit) const {
    Row row;
    row.drink = hit.drink;
    row.revision = hit.revision;
    row.name = hit.name.empty() ? tr("no name yet") : fromCore(hit.name);
    row.preparation = hit.form == history::DrinkForm::Preparation;
    row.binned = hit.binned;
    const auto* summary = m_book->summary(hit.drink);
    if (summary != nullptr) {
        row.state = summary->draftDiffers || summary->revisions == 0 ? StateMark::Draft
                    : summary->hasPublished                          ? StateMark::Published
                    : summary->hasHouse                              ? StateMark::House
                                                                     : StateMark::Kept;
        if (summary->servedStrength && !row.preparation)
            row.strength = readingText(*summary->servedStrength, spec::Quantity::Strength);
    }
    if (hit.field == store::SearchField::Name || hit.field == store::SearchField::None) {
        if (hit.field == store::SearchField::Name) row.nameMarks = stretches(hit.snippet, hit.marks);
        if (summary != nullptr) row.where = fromCore(summary->menuName);
        return row;
    }
    QString label;
    if (hit.revision)
        if (const auto revision = m_book->book().revision(*hit.revision))
            label = revisionLabel(hit.form, revision->number);
    row.where = searchFieldWord(hit.field, label);
    row.said = fromCore(hit.snippet);
    row.saidMarks = stretches(hit.snippet, hit.marks);
    return row;
}

int ResultsModel::rowOf(base::DrinkId drink) const {
    const auto found =
        std::find_if(m_rows.begin(), m_rows.end(), [&](const Row& row) { return row.drink == drink; });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int ResultsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant ResultsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    switch (role) {
    case Qt::DisplayRole:
        return row.name;
    case Qt::ToolTipRole:
        return row.said.isEmpty() ? row.name : QString(row.name + u": "_s + row.said);
    case Qt::AccessibleTextRole: {
        QStringList words{row.name};
        words << (row.binned ? tr("in the bin") : row.preparation ? tr("preparation") : stateWord(row.state));
        if (!row.where.isEmpty()) words << row.where;
        if (!row.said.isEmpty()) words << row.said;
        if (!row.strength.number.isEmpty()) words << tr("%1 % vol served").arg(row.strength.plain());
        return words.join(u", "_s);
    }
    default:
        return {};
    }
}

bool ResultsModel::canFetchMore(const QModelIndex& parent) const {
    return !parent.isValid() && m_search && static_cast<int>(m_rows.size()) < m_answer.total;
}

void ResultsModel::fetchMore(const QModelIndex&) {
    auto answer = m_search(rowCount() + 2 * kAtOnce);
    if (!answer) return;
    const auto from = m_rows.size();
    m_answer = *std::move(answer);
    if (m_answer.hits.size() <= from) {
        m_answer.total = static_cast<int>(from); // the book has changed: what stands there is all
        return;
    }
    beginInsertRows({}, static_cast<int>(from), static_cast<int>(m_answer.hits.size()) - 1);
    for (std::size_t i = from; i < m_answer.hits.size(); ++i)
        m_rows.push_back(rowOfHit(m_answer.hits[i]));
    endInsertRows();
    Q_EMIT fetched();
}

} // namespace stillroom::ui

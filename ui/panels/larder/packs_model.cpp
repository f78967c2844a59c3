#include "ui/panels/larder/packs_model.h"

#include "core/exchange/pack_size.h"
#include "core/larder/price_history.h"
#include "core/preparation/recompute.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/terms_words.h"

namespace stillroom::ui {

namespace {

QString plainNumber(const QString& text) {
    QString plain = text.trimmed();
    plain.replace(kMinus, QLatin1Char('-'));
    plain.replace(QLatin1Char(','), QLatin1Char('.'));
    return plain;
}

void setSize(larder::Pack& pack, const exchange::PackSize& size) {
    pack.forMl.reset();
    pack.forG.reset();
    pack.forPieces.reset();
    auto& into = size.unit == larder::PackUnit::Ml     ? pack.forMl
                 : size.unit == larder::PackUnit::Gram ? pack.forG
                                                       : pack.forPieces;
    into = size.amount.toDouble();
}

} // namespace

PacksModel::PacksModel(QObject* parent) : QAbstractTableModel(parent) {}

void PacksModel::setEdit(LarderEdit* edit) {
    m_edit = edit;
    refresh();
    if (edit == nullptr) return;
    connect(edit, &LarderEdit::changed, this, &PacksModel::refresh);
    connect(edit, &LarderEdit::chosenChanged, this, &PacksModel::refresh);
}

void PacksModel::refresh() {
    std::vector<Shown> shown;
    if (m_edit != nullptr && m_edit->hasChosen()) {
        const auto& now = m_edit->now();
        larder::PurchaseTerms terms;
        terms.usableShare = now.usableShare;
        const auto steps = larder::priceSteps(now.packs, terms);
        for (std::size_t i = 0; i < now.packs.size(); ++i) {
            const auto& pack = now.packs[i];
            if (preparation::isCostOfMaking(pack, now.id)) continue;
            Shown row{i, pack.id, {}, {}};
            if (const auto rate = larder::costRate(pack, terms)) {
                const int of = rate->unit == larder::PackUnit::Piece ? 1 : 100;
                if (const auto cost = larder::costOfAmount(*rate, of))
                    row.each = QString(number(cost->major(), pack.price.currency.exponent) +
                                       QStringLiteral(" / ") + unitPricePer({0, rate->unit, of}));
            }
            for (const auto& step : steps)
                if (!pack.pricedOn.empty() && step.day == pack.pricedOn)
                    if (const auto relative = larder::relativeChange(step))
                        row.change = QString(signedNumber(*relative * 100, 1) + kNarrowSpace + u'%');
            shown.push_back(row);
        }
    }
    put(std::move(shown));
}

// Rows come and go; the cell in hand stays, also when the row for the next price becomes a pack.
void PacksModel::put(std::vector<Shown> shown) {
    const base::IngredientId of = m_edit != nullptr ? m_edit->chosen() : base::IngredientId();
    const auto was = static_cast<int>(m_shown.size());
    const auto is = static_cast<int>(shown.size());
    const bool same = of == m_of && !of.isNull();
    if (same && is == was + 1) {
        beginInsertRows({}, was + 1, was + 1);
        m_shown = std::move(shown);
        endInsertRows();
    } else if (same && is == was - 1) {
        int gone = 0;
        while (gone < is &&
               shown[static_cast<std::size_t>(gone)].id == m_shown[static_cast<std::size_t>(gone)].id)
            ++gone;
        beginRemoveRows({}, gone, gone);
        m_shown = std::move(shown);
        endRemoveRows();
    } else if (same && is == was) {
        m_shown = std::move(shown);
    } else {
        beginResetModel();
        m_of = of;
        m_shown = std::move(shown);
        endResetModel();
        return;
    }
    if (rowCount() > 0) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
}

int PacksModel::rowCount(const QModelIndex& parent) const {
    if (parent.isValid() || m_of.isNull()) return 0;
    return static_cast<int>(m_shown.size()) + 1;
}
int PacksModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

const larder::Pack& PacksModel::pack(int row) const {
    return m_edit->now().packs[m_shown[static_cast<std::size_t>(row)].at];
}

QString PacksModel::field(int row, int column) const {
    const QString which = isNext(row) ? QStringLiteral("next") : fromCore(pack(row).id.text());
    return QStringLiteral("pack/%1/%2").arg(which).arg(column);
}

QString PacksModel::text(int row, int column) const {
    if (isNext(row)) return {};
    const auto& at = pack(row);
    switch (column) {
    case Holds:
        return sizeText(at);
    case Price:
        return fromCore(at.price.text());
    case Currency:
        return fromCore(at.price.currency.text());
    case Tax:
        return at.taxPercent.isZero() ? QString() : trimmedNumber(at.taxPercent.toDouble(), 3);
    case Supplier:
        return fromCore(at.supplier);
    case On:
        return fromCore(at.pricedOn);
    case Each:
        return m_shown[static_cast<std::size_t>(row)].each;
    case Change:
        return m_shown[static_cast<std::size_t>(row)].change;
    default:
        return {};
    }
}

QVariant PacksModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || m_edit == nullptr) return {};
    const int row = index.row();
    const int column = index.column();
    const QString typed = m_edit->typed(field(row, column));
    switch (role) {
    case Qt::DisplayRole:
        if (!typed.isEmpty()) return typed;
        if (isNext(row) && column == Holds) return tr("next price");
        return text(row, column);
    case Qt::EditRole:
        return typed.isEmpty() ? text(row, column) : typed;
    case Qt::TextAlignmentRole:
        return QVariant(
            (column == Supplier || column == On || column == Currency ? Qt::AlignLeft : Qt::AlignRight) |
            Qt::AlignVCenter);
    case UnreadableRole:
        return typed.isEmpty() ? isRefused(row, column) : !problem(column, typed).isEmpty();
    case QuietRole:
        return column >= Each || (isNext(row) && typed.isEmpty());
    case HandRole:
        return column == Supplier || (isNext(row) && typed.isEmpty());
    case ChangedRole: {
        if (isNext(row) || column != Holds) return false;
        const auto& stored = m_edit->stored().packs;
        return std::find(stored.begin(), stored.end(), pack(row)) == stored.end();
    }
    default:
        return {};
    }
}

Qt::ItemFlags PacksModel::flags(const QModelIndex& index) const {
    if (!index.isValid() || m_edit == nullptr) return Qt::NoItemFlags;
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    if (index.column() < Each) flags |= Qt::ItemIsEditable;
    return flags;
}

bool PacksModel::isRefused(int row, int column) const {
    using larder::CostProblem;
    if (isNext(row)) return false;
    for (const auto& finding : m_edit->findings()) {
        if (!finding.refuses || finding.pack != m_shown[static_cast<std::size_t>(row)].at) continue;
        const bool date = finding.code == preparation::FindingCode::DateUnreadable;
        const auto why = finding.problem;
        const int at = date                                ? On
                       : why == CostProblem::NegativePrice ? Price
                       : why == CostProblem::BadTax        ? Tax
                                                           : Holds;
        if (at == column) return true;
    }
    return false;
}

// Empty: it can be read.
QString PacksModel::problem(int column, const QString& typed) const {
    larder::Pack pack;
    pack.price.currency = m_edit->book().houseRules().currency;
    if (take(pack, column, typed)) return {};
    switch (column) {
    case Holds: {
        const auto size = exchange::readPackSize(toCore(typed));
        if (size.error() == exchange::SizeProblem::NoUnit)
            return tr("“%1” of what? Write 700 ml, 1 kg or 24 pieces.").arg(shortened(typed));
        if (size.error() == exchange::SizeProblem::UnknownUnit)
            return tr("“%1”: this is a unit of no fixed size. Write 700 ml, 1 kg or 24 pieces.")
                .arg(shortened(typed));
        return tr("“%1” is no size yet. Write 700 ml, 1 kg or 24 pieces.").arg(shortened(typed));
    }
    case Price:
        return tr("“%1” is no price yet: write it in whole units and at most %2 decimals.")
            .arg(shortened(typed))
            .arg(pack.price.currency.exponent);
    case Currency:
        return tr("“%1” is no currency: three letters, as EUR or GBP.").arg(shortened(typed));
    case Tax:
        return tr("“%1” is no share of tax yet: write per cent, as 20.").arg(shortened(typed));
    default:
        return tr("“%1” cannot be read.").arg(shortened(typed));
    }
}

bool PacksModel::take(larder::Pack& pack, int column, const QString& typed) const {
    const QString text = typed.trimmed();
    switch (column) {
    case Holds: {
        const auto size = exchange::readPackSize(toCore(text));
        if (size) setSize(pack, *size);
        return size.has_value();
    }
    case Price: {
        const auto money = quantity::Money::fromText(toCore(plainNumber(text)), pack.price.currency);
        if (money) pack.price = *money;
        return money.has_value();
    }
    case Currency: {
        const auto currency = quantity::Currency::fromCode(toCore(text.toUpper()));
        if (!currency) return false;
        // The figure stays: 12.50 of another money, not as many of its smallest coins.
        const auto money = quantity::Money::fromText(pack.price.text(), *currency);
        if (!money) return false;
        pack.price = *money;
        return true;
    }
    case Tax: {
        if (text.isEmpty()) {
            pack.taxPercent = 0;
            return true;
        }
        const auto tax = quantity::Rational::fromText(toCore(plainNumber(text)));
        if (tax) pack.taxPercent = *tax;
        return tax.has_value();
    }
    case Supplier:
        pack.supplier = toCore(text);
        return true;
    case On:
        pack.pricedOn = toCore(text); // findings say when it is no date
        return true;
    default:
        return false;
    }
}

// A pack as soon as there is a price for a size; the size of the last pack holds until another is typed.
bool PacksModel::takeNext(int column, const QString& typed) {
    m_edit->setTyped(field(rowCount() - 1, column), typed.trimmed());
    larder::Pack next;
    next.price.currency = m_edit->book().houseRules().currency;
    if (!m_shown.empty()) {
        const auto& last = pack(static_cast<int>(m_shown.size()) - 1);
        next = last;
        next.price.minor = 0;
    }
    next.id = base::PackId::random();
    next.pricedOn = m_edit->today();
    bool priced = false;
    for (const int each : {static_cast<int>(Currency), static_cast<int>(Holds), static_cast<int>(Price),
                           static_cast<int>(Tax), static_cast<int>(Supplier), static_cast<int>(On)}) {
        const QString text = m_edit->typed(field(rowCount() - 1, each));
        if (text.isEmpty()) continue;
        if (!take(next, each, text)) return true;
        priced |= each == Price;
    }
    if (!priced || !(next.forMl || next.forG || next.forPieces)) return true;
    // The row is made once the cell being typed in has closed: a reset under an open cell would lose it.
    QMetaObject::invokeMethod(
        this,
        [this, next, of = m_edit->chosen()] {
            if (m_edit->chosen() != of) return;
            larder::Ingredient ingredient = m_edit->now();
            ingredient.packs.push_back(next);
            m_edit->set(std::move(ingredient));
            for (int each = Holds; each < Each; ++each)
                m_edit->setTyped(QStringLiteral("pack/next/%1").arg(each), {});
        },
        Qt::QueuedConnection);
    return true;
}

bool PacksModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !flags(index).testFlag(Qt::ItemIsEditable)) return false;
    const int row = index.row();
    const int column = index.column();
    const QString typed = value.toString();
    if (isNext(row)) return takeNext(column, typed);
    const QString key = field(row, column);
    if (typed == text(row, column)) {
        m_edit->setTyped(key, {});
        return true;
    }
    larder::Ingredient next = m_edit->now();
    auto& pack = next.packs[m_shown[static_cast<std::size_t>(row)].at];
    const bool readable = take(pack, column, typed);
    m_edit->setTyped(key, readable ? QString() : typed);
    if (readable) m_edit->set(std::move(next));
    return true;
}

void PacksModel::remove(int row) {
    if (isNext(row)) {
        for (int each = Holds; each < Each; ++each)
            m_edit->setTyped(field(row, each), {});
        return;
    }
    larder::Ingredient next = m_edit->now();
    for (int each = Holds; each < Each; ++each)
        m_edit->setTyped(field(row, each), {});
    next.packs.erase(next.packs.begin() +
                     static_cast<std::ptrdiff_t>(m_shown[static_cast<std::size_t>(row)].at));
    m_edit->set(std::move(next));
}

QStringList PacksModel::problems() const {
    QStringList all;
    if (m_edit == nullptr || !m_edit->hasChosen()) return all;
    bool waiting = false;
    for (int row = 0; row < rowCount(); ++row)
        for (int column = Holds; column < Each; ++column) {
            const QString typed = m_edit->typed(field(row, column));
            if (typed.isEmpty()) continue;
            const QString why = problem(column, typed);
            if (!why.isEmpty())
                all << why;
            else
                waiting = true;
        }
    if (waiting && all.isEmpty())
        all << tr("The next price counts once both are there: what the pack holds, and what it cost. Ctrl "
                  "Delete takes the row away.");
    return all;
}

QVariant PacksModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant(
            (section == Supplier || section == On || section == Currency ? Qt::AlignLeft : Qt::AlignRight) |
            Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    static const char* const names[] = {QT_TR_NOOP("Holds"),  QT_TR_NOOP("Price"), QT_TR_NOOP("In"),
                                        QT_TR_NOOP("Tax %"),  QT_TR_NOOP("From"),  QT_TR_NOOP("On"),
                                        QT_TR_NOOP("Usable"), QT_TR_NOOP("Change")};
    return tr(names[section]);
}

} // namespace stillroom::ui

import { describe, expect, it } from 'vitest'
import { roomBeside } from '@/components/map/room'

const MAP = { left: 320, width: 700, height: 500, bottom: 600 }

describe('the room for what is to be seen', () => {
  it('keeps to the edges where nothing is laid over the map', () => {
    expect(roomBeside(MAP, null)).toEqual({ top: 48, right: 48, bottom: 48, left: 48 })
    expect(roomBeside(MAP, { right: 0, top: 0, width: 0, height: 0 })).toEqual({ top: 48, right: 48, bottom: 48, left: 48 })
  })

  it('lies beside the legend of a wide map, and above that of a tall one', () => {
    expect(roomBeside(MAP, { right: 520, top: 350, width: 190, height: 240 })).toEqual({ top: 48, right: 48, bottom: 48, left: 224 })
    expect(roomBeside({ ...MAP, width: 360, height: 700, bottom: 800 }, { right: 520, top: 600, width: 190, height: 190 })).toEqual({ top: 48, right: 48, bottom: 224, left: 48 })
  })

  it('keeps to the edges where the legend takes half the map either way', () => {
    expect(roomBeside({ ...MAP, width: 360, height: 400, bottom: 500 }, { right: 520, top: 300, width: 190, height: 190 })).toEqual({ top: 48, right: 48, bottom: 48, left: 48 })
  })
})
